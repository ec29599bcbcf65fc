// What a knitter keeps of her test knits, in this browser and nowhere else: one log for each chart, or pattern and size.
// Scripts that show or change them are say.js and mine.js.
globalThis.lintarsiaLogs = (() => {
  "use strict";
  // A site may share its address with others of the same host: logs are kept by the folder that the site stands in.
  const script = globalThis.lintarsia?.from ?? document.currentScript?.src;
  const ROOT = script ? new URL("..", script).pathname : location.pathname;
  const PREFIX = `lintarsia:log:${ROOT}:`, HANDLE = `lintarsia:knitter:${ROOT}`;
  const unkept = new Map(); // what the browser would not keep, for as long as this page stands

  const coded = (text) => encodeURIComponent(text.toWellFormed?.() ?? text);
  const keyOf = (log) => `${PREFIX}${coded(log.file)}:${coded(log.size ?? "")}`;
  const last = (file) => file.split("/").at(-1);

  /** A log with all that is asked of one, whatever was kept; null for what is none. */
  function sane(kept) {
    if (!kept || typeof kept.file !== "string" || !["chart", "pattern"].includes(kept.of)) return null;
    const rows = Array.isArray(kept.rows) ? kept.rows.filter((one) => one && Number.isInteger(one.row) && typeof one.said === "string") : [];
    const yarns = Array.isArray(kept.yarns) ? kept.yarns.filter((one) => typeof one?.key === "string") : [];
    return { title: "", page: "", size: null, fingerprint: "", knitter: "", gauge: null, used: {}, hours: null, finished: "", remarks: "", site: true, ...kept, rows, yarns };
  }

  function all() {
    const found = new Map();
    try {
      for (let i = 0; i < localStorage.length; i++) {
        const key = localStorage.key(i);
        if (!key.startsWith(PREFIX)) continue;
        try { const log = sane(JSON.parse(localStorage.getItem(key))); if (log) found.set(key, log); } catch { /* not ours */ }
      }
    } catch { /* this browser shows nothing of what it keeps */ }
    for (const [key, log] of unkept) found.set(key, log);
    return [...found.values()].sort((one, other) => (other.changed ?? 0) - (one.changed ?? 0));
  }

  /** The log of a chart, or of a pattern in a size; one from another device may know the file by its bare name alone. */
  function find({ of, file, size }) {
    const fit = all().filter((log) => log.of === of && (log.size ?? null) === (size ?? null));
    return fit.find((log) => log.file === file) ?? fit.find((log) => log.file === last(file) || file === last(log.file)) ?? null;
  }

  /** Keep it, and say whether the browser did. What it would not keep is not lost while the page stands. */
  function keep(log) {
    log.changed = Date.now();
    const key = keyOf(log);
    try {
      localStorage.setItem(key, JSON.stringify(log));
      unkept.delete(key);
      return true;
    } catch {
      if (!unkept.size) addEventListener("beforeunload", warn);
      unkept.set(key, log);
      return false;
    }
  }

  function drop(log) {
    unkept.delete(keyOf(log));
    try { localStorage.removeItem(keyOf(log)); } catch { /* it never was */ }
  }

  const knitter = () => { try { return localStorage.getItem(HANDLE) ?? ""; } catch { return ""; } };
  const called = (name) => { try { localStorage.setItem(HANDLE, name); } catch { /* not kept */ } };
  const begun = (about) => sane({ ...about, knitter: knitter() });
  const warn = (event) => { if (unkept.size) event.preventDefault(); };

  /** The file's name: hers, and that of what was knitted. */
  function fileName(log) {
    const plain = (text) => text.normalize("NFKD").replace(/[^\w]+/g, "-").replace(/^-+|-+$/g, "").toLowerCase().slice(0, 40);
    const parts = [log.knitter, last(log.file).replace(/\.(?:chart|pattern)\.ya?ml$/, ""), log.size ?? ""].map(plain).filter(Boolean);
    return `${parts.join("-") || "log"}.knit.yaml`;
  }

  /** What she said of a chart that has become another since is told with the mark of what she had before her. */
  function written(log) {
    const rows = log.rows.map((one) => (one.mark && one.mark !== log.fingerprint ? { ...one, said: `${one.said} (of the state ${one.mark})` } : one));
    return globalThis.lintarsiaLogFile.write({ ...log, rows });
  }

  function download(log) {
    const link = document.createElement("a"), address = URL.createObjectURL(new Blob([written(log)], { type: "application/yaml" }));
    link.href = address;
    link.download = fileName(log);
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  return { ROOT, all, find, keep, drop, begun, knitter, called, fileName, written, download, last };
})();
