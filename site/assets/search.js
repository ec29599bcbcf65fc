// Search over charts, rules, results, changes and the guide, in an index that came with the pages: nothing is asked of anybody.
(() => {
  "use strict";
  const form = document.querySelector('[data-part="search"]');
  const index = globalThis.lintarsiaIndex;
  if (!form || !index) return;
  const input = form.elements.q, list = document.querySelector('[data-part="hits"]'), told = document.querySelector('[data-part="found"]');
  const wayOn = document.querySelector('[data-part="no-hits"]');
  const { phrase, counted } = globalThis.lintarsia;
  const NAMES = { chart: phrase("chart"), pattern: phrase("pattern"), rule: phrase("rule"), guide: phrase("guide"), result: phrase("result"), changes: phrase("changes") };
  const MOST = 60;
  const plain = (text) => text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const entries = index.map(([kind, title, text, link]) => ({ kind, title, text, link, head: plain(title), all: plain(`${title} ${text} ${NAMES[kind] ?? phrase(kind)}`) }));
  const AFTER = { changes: 1, rule: 1, guide: 1, result: 2 }; // whatever kind of file has a page
  const ENGLISH = new Set(["rule", "guide", "result", "changes"]);
  const LONG = 220; // letters of a text that are shown

  /** Of a long text, what stands around the first of the words. */
  function excerpt(text, words) {
    if (text.length <= LONG) return text;
    const folded = [...text].map((letter) => plain(letter) || " ").join("");
    const found = words.map((word) => folded.indexOf(word)).filter((at) => at >= 0);
    const around = Math.max(0, (found.length ? Math.min(...found) : 0) - LONG / 3);
    const start = around ? text.indexOf(" ", around) + 1 : 0;
    return `${start ? "… " : ""}${text.slice(start, start + LONG).replace(/\s\S*$/, "")} …`;
  }

  function score(entry, words) {
    let sum = 0;
    for (const word of words) {
      const at = entry.all.indexOf(word);
      if (at < 0) return -1;
      const starts = at === 0 || /[^\p{L}\p{N}]/u.test(entry.all[at - 1]);
      sum += (entry.head.includes(word) ? 4 : 0) + (starts ? 2 : 0) + (entry.head === word ? 8 : 0);
    }
    return sum;
  }

  function look() {
    const words = plain(input.value).split(/\s+/).filter(Boolean);
    list.replaceChildren();
    told.textContent = "";
    wayOn.hidden = true;
    history.replaceState(null, "", words.length ? `?q=${encodeURIComponent(input.value)}` : location.pathname);
    if (!words.length) return;
    const hits = entries.map((entry) => ({ entry, score: score(entry, words) })).filter((hit) => hit.score >= 0)
      .sort((a, b) => b.score - a.score || (AFTER[a.entry.kind] ?? 0) - (AFTER[b.entry.kind] ?? 0) || a.entry.title.localeCompare(b.entry.title));
    told.textContent = !hits.length ? phrase("Nothing found.") : [counted(hits.length, "{n} found", "{n} found"), hits.length > MOST && phrase("the first {n} shown", { n: MOST })].filter(Boolean).join(", ");
    wayOn.hidden = hits.length > 0;
    for (const { entry } of hits.slice(0, MOST)) {
      const item = document.createElement("li"), link = document.createElement("a");
      const kind = document.createElement("small"), text = document.createElement("p");
      link.href = entry.link;
      link.textContent = entry.title;
      kind.textContent = NAMES[entry.kind] ?? phrase(entry.kind);
      if (globalThis.lintarsia.language !== "en" && ENGLISH.has(entry.kind)) link.lang = text.lang = "en";
      text.textContent = excerpt(entry.text, words);
      item.append(link, " ", kind, text);
      list.append(item);
    }
  }

  form.hidden = false;
  input.value = new URLSearchParams(location.search).get("q") ?? "";
  input.addEventListener("input", look);
  form.addEventListener("submit", (event) => event.preventDefault());
  if (input.value) look();
  input.focus();
})();
