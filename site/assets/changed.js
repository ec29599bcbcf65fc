// What has become of the chart since the place was kept: the place moves along with its row, and what changed is said.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const note = page && page.querySelector('[data-part="changed"]');
  const card = page && page.querySelector('[data-part="card"]');
  if (!note || !card) return;

  const PLACE = `lintarsia:row:${location.pathname}`, KEY = `lintarsia:chart:${location.pathname}`;
  const { phrase, names, counted } = globalThis.lintarsia, word = page.dataset.word, mark = page.dataset.fingerprint, rows = page.dataset.rowMarks.split(" ");
  let drawn = null;
  const texts = () => drawn ??= globalThis.lintarsia.texts(); // of each row, a letter a stitch, row 1 first
  const LONGEST = 100_000, MOST_NAMED = 3, MOST_TOLD = 6; // stitches kept; rows named stitch by stitch; changes told
  const list = note.querySelector("ul");
  const read = (key) => { try { return localStorage.getItem(key); } catch { return null; } };
  const write = (key, value) => { try { localStorage.setItem(key, value); } catch { /* not kept */ } };
  let kept = null;
  try { kept = JSON.parse(read(KEY)); } catch { /* not ours */ }
  let told = Array.isArray(kept?.told) ? kept.told.filter((line) => typeof line === "string") : [];

  let last = kept?.mark === mark ? read(KEY) : null; // what is kept of the chart as it is now
  const keep = () => {
    last = JSON.stringify({ mark, rows, told, texts: lintarsia.shape.rows * lintarsia.shape.columns > LONGEST ? [] : texts() });
    write(KEY, last);
  };

  function show() {
    list.replaceChildren(...told.map((line) => {
      const item = document.createElement("li");
      item.textContent = line;
      return item;
    }));
    note.hidden = !told.length;
  }

  /** Rows of before matched with those of now: [was, now] from the first row up, 0 for none. Exact, by most rows kept. */
  function matched(old, now) {
    let low = 0, high = 0;
    while (low < old.length && low < now.length && old[low] === now[low]) low++;
    while (high < old.length - low && high < now.length - low && old.at(-1 - high) === now.at(-1 - high)) high++;
    const a = old.slice(low, old.length - high), b = now.slice(low, now.length - high), wide = b.length + 1;
    const pairs = [];
    for (let row = 1; row <= low; row++) pairs.push([row, row]);
    const most = a.length * b.length <= 4e6 ? new Uint16Array((a.length + 1) * wide) : null;
    for (let i = a.length - 1; most && i >= 0; i--) for (let j = b.length - 1; j >= 0; j--) {
      most[i * wide + j] = a[i] === b[j] ? most[(i + 1) * wide + j + 1] + 1 : Math.max(most[(i + 1) * wide + j], most[i * wide + j + 1]);
    }
    let gone = [], come = [];
    const flush = () => { // between rows that are kept: as many as go and come are rows that are another now
      for (let k = 0; k < Math.max(gone.length, come.length); k++) pairs.push([gone[k] ?? 0, come[k] ?? 0]);
      gone = []; come = [];
    };
    for (let i = 0, j = 0; i < a.length || j < b.length;) {
      if (i < a.length && j < b.length && a[i] === b[j]) { flush(); pairs.push([++i + low, ++j + low]); }
      else if (j >= b.length || (i < a.length && (!most || most[(i + 1) * wide + j] >= most[i * wide + j + 1]))) gone.push(++i + low);
      else come.push(++j + low);
    }
    flush();
    for (let left = high - 1; left >= 0; left--) pairs.push([old.length - left, now.length - left]);
    return pairs;
  }

  const stretches = (numbers) => {
    const parts = [];
    for (const number of numbers) {
      const last = parts.at(-1);
      if (last && number === last[1] + 1) last[1] = number; else parts.push([number, number]);
    }
    return parts.map(([first, last]) => (first === last ? `${first}` : `${first}–${last}`)).join(", ");
  };
  /** `row 5 is new`, `rows 5–8 are new`: a phrase for one and one for several. */
  const all = (numbers, one, many) => phrase(numbers.length > 1 ? many : one, { ...names, rows: stretches(numbers) });

  /** The stitches of a row of now, counted from the right, that are not what they were; none where that is not known. */
  function stitches(was, now) {
    const before = Array.from(kept.texts?.[was - 1] ?? "").reverse(), after = Array.from(texts()[now - 1] ?? "").reverse();
    if (!before.length || before.length !== after.length) return [];
    return after.flatMap((symbol, at) => (symbol === before[at] ? [] : [at + 1]));
  }

  const marked = (text) => text; // looked up where they are said
  const ANOTHER = [marked("{word} {rows} is another"), marked("{words} {rows} are another")];
  const NEW = [marked("{word} {rows} is new"), marked("{words} {rows} are new")];
  const GONE = [marked("what was {word} {rows} is gone"), marked("what was {words} {rows} are gone")];

  function others(pairs, old) {
    const found = pairs.filter(([was, now]) => was && now && old[was - 1] !== rows[now - 1]);
    const each = found.map(([was, now]) => [now, stitches(was, now)]);
    if (found.length <= MOST_NAMED && each.every(([, parts]) => parts.length)) {
      const another = (parts) => (parts.length > 1 ? phrase("stitches {list} are another", { list: stretches(parts) }) : phrase("stitch {list} is another", { list: stretches(parts) }));
      return each.map(([now, parts]) => `${names.word} ${now}: ${another(parts)}`);
    }
    return found.length ? [all(found.map(([, now]) => now), ...ANOTHER)] : [];
  }

  function phrases(pairs, old) {
    const fresh = pairs.filter(([was]) => !was).map(([, now]) => now);
    const gone = pairs.filter(([, now]) => !now).map(([was]) => was);
    return [
      fresh.length && all(fresh, ...NEW), gone.length && all(gone, ...GONE), ...others(pairs, old),
    ].filter(Boolean);
  }

  /** What the page was published with: each change since that very state, in words. */
  const published = () => {
    const lists = page.querySelector('[data-part="earlier"]')?.content.querySelectorAll("[data-was]") ?? [];
    return [...lists].find((list) => list.dataset.was === kept.mark) ?? null;
  };
  const numbers = (text) => (text ? text.split(" ").map(Number) : []);

  /** As `matched`, from the rows that came and went. */
  function stated(history, was) {
    const come = new Set(numbers(history.dataset.come)), gone = new Set(numbers(history.dataset.gone)), pairs = [];
    for (let i = 1, j = 1; i <= was || j <= rows.length;) {
      if (i <= was && gone.has(i)) pairs.push([i++, 0]);
      else if (j <= rows.length && (come.has(j) || i > was)) pairs.push([0, j++]);
      else pairs.push([i++, j <= rows.length ? j++ : 0]);
    }
    return pairs;
  }

  /** The changes as published: those of the whole, those the knitter has gone past, and those before her. */
  function changes(history, row, here) {
    const whole = [], behind = [], ahead = [];
    for (const item of history.children) {
      const now = numbers(item.dataset.now), before = numbers(item.dataset.before);
      const words = item.querySelector("b").textContent, means = item.querySelector("i")?.textContent;
      const past = before.length ? before.some((number) => number < row) : now.some((number) => number < here);
      if (!now.length && !before.length) whole.push(means ? phrase("{change}; if you have knitted some: {means}", { change: words, means }) : words);
      else if (past) behind.push(means ? `${words}; ${means}` : words);
      else ahead.push(words);
    }
    return [whole, behind, ahead];
  }

  const some = (lines, lead) => [
    ...lines.slice(0, MOST_TOLD).map((line) => `${lead}: ${line}.`),
    ...(lines.length > MOST_TOLD ? [`${lead}: ${counted(lines.length - MOST_TOLD, "{n} more change.", "{n} more changes.")}`] : []),
  ];

  /** Where the knitter stands now, and what to tell her. */
  function compare(old, place) {
    const history = published();
    const pairs = history ? stated(history, old.length) : matched(old, rows);
    const row = Number.parseInt(place, 10) || 0;
    const at = pairs.findIndex(([was]) => was === row);
    const here = (at < 0 ? 0 : pairs[at][1] || pairs.slice(at).find(([, now]) => now)?.[1] || rows.length);
    const begun = row > 1 && at >= 0;
    let [whole, past, next] = history ? changes(history, row, here) : [
      [], phrases(at < 0 ? [] : pairs.slice(0, at), old), phrases(at < 0 ? pairs : pairs.slice(at), old),
    ];
    if (!history) [past, next] = [past, next].map((parts) => (parts.length ? [parts.join("; ")] : []));
    const lines = [phrase("The chart has changed since you were here."), ...some(whole, phrase("In all of it"))];
    if (begun) {
      if (past.length) lines.push(...some(past, phrase("Below {word} {row}, where you were", { ...names, row })));
      else if (!whole.length) lines.push(phrase("All that you have knitted is as it was."));
      if (here !== row) lines.push(phrase("You are at {word} {row} now.", { ...names, row: here }));
      const turned = word === "row" && page.dataset.turned !== undefined && (here - row) % 2 !== 0;
      if (turned) lines.push(phrase("Right side and wrong side have changed places from there on."));
    }
    lines.push(...some(next, begun ? phrase("From there on") : phrase("In it")));
    if (!whole.length && !past.length && !next.length) lines.push(phrase("No {word} is another: colours, gauge, yarns or words are.", names));
    return [lines, here && here !== row ? `${here}${place.replace(/^[0-9]+/, "")}` : place];
  }

  if (kept && typeof kept.mark === "string" && Array.isArray(kept.rows) && kept.mark !== mark) {
    const place = read(PLACE) ?? "";
    const [lines, moved] = compare(kept.rows, place);
    told = lines;
    if (place && moved !== place) {
      write(PLACE, moved);
      if (location.hash === `#row-${place}`) history.replaceState(null, "", `#row-${moved}`); // before the page goes there
    }
    keep();
  }
  show();
  note.addEventListener("lintarsia:told", (event) => { told = [...told, event.detail]; keep(); show(); });
  note.querySelector("button").addEventListener("click", () => { told = []; keep(); show(); });
  // All stitches of a large chart take time to write: after the row is shown, and where they are not kept already.
  const keepOnce = () => { if (last === null || read(KEY) !== last) keep(); };
  card.addEventListener("lintarsia:row", () => lintarsia.later(keepOnce));
  const leave = () => lintarsia.atOnce(keepOnce);
  addEventListener("pagehide", leave);
  addEventListener("visibilitychange", leave);
})();
