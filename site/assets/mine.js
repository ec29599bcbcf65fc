// All that a knitter keeps of her test knits: to look at, to fill in, to send, and to bring back on another device.
(() => {
  "use strict";
  const list = document.querySelector('[data-part="logs"]');
  if (!list) return;

  const { phrase, counted } = globalThis.lintarsia;
  const logs = globalThis.lintarsiaLogs, file = globalThis.lintarsiaLogReading, photos = globalThis.lintarsiaPhotos;
  const pattern = (part) => document.querySelector(part).content.firstElementChild;
  const base = new URL(logs.ROOT, location.href);
  const KINDS = { trouble: phrase("Trouble"), question: phrase("Question"), praise: phrase("Praise") };
  const mail = list.dataset.mail, issue = list.dataset.issue;

  // --- numbers as people write them -----------------------------------------------------------------------------------
  /** A number, null where nothing is written, NaN for what is none. */
  const number = (text) => (text.trim() ? (/^[0-9]{1,6}([.,][0-9]{1,3})?$/.test(text.trim()) ? Number(text.trim().replace(",", ".")) : NaN) : null);
  const bare = (said) => (said ? said.split(/ ?[a-z]+$/)[0] : "");
  const unit = (said) => (said ? /[a-z]+$/.exec(said)[0] : "");

  function yarnLine({ key, name }, used) {
    const line = pattern('[data-part="yarn-line"]').cloneNode(true), first = typeof used === "string" ? used : used?.before ?? "";
    const set = (field, value) => { line.querySelector(`[name="${field}"]`).value = value; };
    line.dataset.key = key;
    line.querySelector("b").textContent = name || key;
    line.setAttribute("aria-label", name || key);
    set("unit", unit(first) || "g");
    if (typeof used === "string") set("used", bare(used));
    else if (used) { set("before", bare(used.before)); set("after", bare(used.after)); }
    return line;
  }

  /** What a yarn's line says; raises what is wrong with it. `half` is what has a before and no after yet. */
  function usedOf(line) {
    const [before, after, used] = ["before", "after", "used"].map((name) => number(line.querySelector(`[name="${name}"]`).value));
    const of = line.querySelector("b").textContent, kind = line.querySelector('[name="unit"]').value;
    if ([before, after, used].some(Number.isNaN)) throw new Error(phrase("{yarn}: write amounts as numbers, such as 46.5.", { yarn: of }));
    if (before !== null && after !== null && after > before) throw new Error(phrase("{yarn}: there is more after ({after}) than before ({before}).", { yarn: of, after: `${after} ${kind}`, before: `${before} ${kind}` }));
    if (before !== null || after !== null) return { before: before === null ? "" : `${before} ${kind}`, after: after === null ? "" : `${after} ${kind}` };
    return used === null ? null : `${used} ${kind}`;
  }

  // --- one log ----------------------------------------------------------------------------------------------------------
  function show(log) {
    const part = pattern('[data-part="log"]').cloneNode(true), at = (name) => part.querySelector(`[data-log="${name}"]`);
    const form = at("form"), fields = form.elements, { gauge } = log;
    const title = at("title");
    title.textContent = log.title || logs.last(log.file);
    if (log.page) title.href = new URL(log.page, base).href;
    at("size").textContent = log.size ?? "";
    at("mark").textContent = log.fingerprint ? phrase("{file}, state {mark}", { file: logs.last(log.file), mark: log.fingerprint }) : logs.last(log.file);
    Object.entries({ knitter: log.knitter, hours: log.hours ?? "", finished: log.finished, stitches: gauge?.stitches ?? "", rows: gauge?.rows ?? "", needle: bare(gauge?.needle), remarks: log.remarks })
      .forEach(([name, value]) => { fields[name].value = value; });
    const over = gauge?.over || log.over || "10 cm";
    if (![...fields.over.options].some((one) => one.value === over)) fields.over.add(new Option(over));
    fields.over.value = over;
    part.querySelector('[name="site"]').checked = log.site !== false;
    const known = new Map([...log.yarns.map((one) => [one.key, one]), ...Object.keys(log.used).filter((key) => !log.yarns.some((one) => one.key === key)).map((key) => [key, { key, name: key }])]);
    at("yarns").append(...[...known.values()].map((one) => yarnLine(one, log.used[one.key])));
    at("yarns").hidden = !known.size;

    /** What stands in the form goes into the log; what is wrong is said, and kept from it. */
    function gather() {
      const faults = [], take = (name, most, what) => {
        const value = number(fields[name].value);
        if (Number.isNaN(value) || value > most || (value === 0 && name !== "hours")) { faults.push(phrase("{field}: write a number above 0, such as 21.5.", { field: what })); return null; }
        return value;
      };
      log.knitter = fields.knitter.value.trim();
      log.hours = take("hours", 10_000, phrase("Hours"));
      log.finished = /^[0-9]{4}-/.test(fields.finished.value) ? fields.finished.value : "";
      const needle = take("needle", 100, phrase("Needle"));
      log.gauge = { stitches: take("stitches", 1000, phrase("Stitches")), rows: take("rows", 1000, phrase("Rows")), over: fields.over.value, needle: needle ? `${needle} mm` : "" };
      log.remarks = fields.remarks.value.trim();
      log.site = part.querySelector('[name="site"]').checked;
      for (const line of at("yarns").querySelectorAll("[data-key]")) {
        try { const used = usedOf(line); if (used) log.used[line.dataset.key] = used; else delete log.used[line.dataset.key]; } catch (failure) { faults.push(failure.message); }
      }
      logs.called(log.knitter);
      const kept = logs.keep(log);
      if (!kept) faults.push(phrase("This browser would not keep it: its store is full or forbidden. It is not lost as long as this page stays open. Download it before you go."));
      at("fault").textContent = faults.join(" ");
      at("fault").hidden = !faults.length;
      write();
    }

    /** The file as it would be sent, and the ways to send it. */
    function write() {
      const text = logs.written(log), of = log.title || logs.last(log.file), subject = phrase("Test knit: {of}", { of: `${of}${log.size ? `, ${log.size}` : ""}` });
      at("text").textContent = text;
      const long = (address, most) => (address.length > most ? "" : address);
      const ways = {
        mail: mail && /^[\w.+-]+@[\w.-]+$/.test(mail) ? long(`mailto:${mail}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(`${text}\n`)}`, 16_000) : null,
        issue: issue?.startsWith("https://") ? long(issue.replaceAll("{title}", encodeURIComponent(subject)).replaceAll("{body}", encodeURIComponent(`\`\`\`yaml\n${text}\`\`\`\n`)), 7_500) : null,
      };
      const late = [];
      for (const [way, address] of Object.entries(ways)) {
        const link = part.querySelector(`[data-act="${way}"]`);
        link.hidden = !address;
        if (address) link.href = address; else link.removeAttribute("href");
        if (address === "") late.push(way === "mail" ? phrase("a mail") : phrase("an issue"));
      }
      at("sent").textContent = late.length ? phrase("It is too long to be put into {ways}: download it and send the file.", { ways: late.join(phrase(" or ")) }) : "";
    }

    function said() {
      at("said").replaceChildren(...log.rows.map((one) => {
        const line = pattern('[data-part="said-line"]').cloneNode(true), put = (name, text) => { const spot = line.querySelector(`[data-log="${name}"]`); spot.textContent = text; spot.hidden = !text; return spot; };
        const [first, last] = one.stitches ?? [];
        const which = one.stitches ? `, ${first === last ? phrase("stitch {first}", { first }) : phrase("stitches {first}–{last}", { first, last })}` : "";
        put("kind", KINDS[one.kind] ?? "");
        const where = put("where", `${one.piece ? `${one.piece}, ` : ""}${phrase("row")} ${one.row}${which}`);
        const of = one.page || log.page; // of a pattern, each piece has its own page
        if (of || !log.title) where.href = `${of ? new URL(of, base).href : ""}#row-${one.row}${one.stitches ? `-s${one.stitches.join("-")}` : ""}`;
        put("words", one.said);
        put("answer", one.answered ? phrase("Answered: {words}", { words: one.answered }) : "");
        line.querySelector('[data-act="unsay"]').addEventListener("click", () => { log.rows = log.rows.filter((other) => other !== one); logs.keep(log); said(); write(); });
        return line;
      }));
      at("nothing-said").hidden = log.rows.length > 0;
    }

    part.addEventListener("change", (event) => { if (event.target.type !== "file") gather(); });
    form.addEventListener("submit", (event) => { event.preventDefault(); gather(); });
    part.addEventListener("click", async (event) => {
      const act = event.target.closest("[data-act]")?.dataset.act;
      if (act === "download") { gather(); logs.download(log); at("sent").textContent = phrase("{file}: send it to the designer, who puts it beside {chart}.", { file: logs.fileName(log), chart: logs.last(log.file) }); }
      if (act === "copy") {
        gather();
        try { await navigator.clipboard.writeText(logs.written(log)); at("sent").textContent = phrase("Copied."); } catch { at("text").closest("details").open = true; getSelection().selectAllChildren(at("text")); at("sent").textContent = phrase("The browser allows no copying by a button; the text is marked below, copy it from there."); }
      }
      if (act === "drop") { logs.drop(log); photos?.dropAll(log); fill(); }
    });
    said();
    write();
    photos?.attach(log, part);
    return part;
  }

  function fill() {
    const own = logs.all();
    list.replaceChildren(...own.map(show));
    document.querySelector('[data-part="no-logs"]').hidden = own.length > 0;
  }

  // --- from another device ------------------------------------------------------------------------------------------------
  const bring = document.querySelector('[data-part="bring"]'), brought = document.querySelector('[data-part="brought"]');
  bring.hidden = false;
  const same = (one, other) => ["piece", "row", "kind", "said"].every((key) => (one[key] ?? null) === (other[key] ?? null)) && String(one.stitches ?? "") === String(other.stitches ?? "");

  /** What was kept here and what comes, nothing of either lost: where both say a thing, what comes holds. */
  function together(own, come) {
    const rows = [...come.rows.map((one, i) => ({ ...own?.rows.find((other) => same(one, other)), ...one, id: `${Date.now()}-${i}` })), ...(own?.rows ?? []).filter((one) => !come.rows.some((other) => same(one, other)))];
    const mark = (one) => ({ ...one, mark: one.mark || come.fingerprint });
    const filled = Object.fromEntries(Object.entries(come).filter(([, value]) => value !== null && value !== "" && value !== undefined));
    return { ...logs.begun(come), ...own, ...filled, file: own?.file ?? come.file, used: { ...own?.used, ...come.used }, rows: rows.map(mark) };
  }

  bring.querySelector('[name="file"]').addEventListener("change", async (event) => {
    const [chosen] = event.target.files;
    if (!chosen) return;
    brought.hidden = false;
    try {
      if (chosen.size > 4e6) throw new file.Unreadable(phrase("it is too long for a log"));
      const { lost, ...come } = file.read(await chosen.text());
      const kept = logs.keep(together(logs.find(come), come));
      const left = lost && counted(lost, "One remark had no row, kind or words, and was left out.", "{n} remarks had no row, kind or words, and were left out.");
      brought.textContent = [phrase("{file} is here now.", { file: chosen.name }), left, !kept && phrase("The browser would not keep it: it is gone when this page is closed.")].filter(Boolean).join(" ");
      fill();
    } catch (failure) {
      if (!(failure instanceof file.Unreadable)) throw failure;
      brought.textContent = phrase("{file} cannot be read: {why}. Nothing was changed.", { file: chosen.name, why: failure.message });
    }
    event.target.value = "";
  });

  document.addEventListener("lintarsia:said", fill); // where the chart is on this very page
  fill();
})();
