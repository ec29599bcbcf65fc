// What has become of the chart since the place was kept: the place moves along with its row, and what changed is said.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const note = page && page.querySelector('[data-part="changed"]');
  const card = page && page.querySelector('[data-part="card"]');
  if (!note || !card) return;

  const PLACE = `lintarsia:row:${location.pathname}`, KEY = `lintarsia:chart:${location.pathname}`;
  const word = page.dataset.word, mark = page.dataset.fingerprint, rows = page.dataset.rowMarks.split(" ");
  const list = note.querySelector("ul");
  const read = (key) => { try { return localStorage.getItem(key); } catch { return null; } };
  const write = (key, value) => { try { localStorage.setItem(key, value); } catch { /* not kept */ } };
  let kept = null;
  try { kept = JSON.parse(read(KEY)); } catch { /* not ours */ }
  let told = Array.isArray(kept?.told) ? kept.told.filter((line) => typeof line === "string") : [];

  const keep = () => write(KEY, JSON.stringify({ mark, rows, told }));

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

  const named = (numbers) => {
    const parts = [];
    for (const number of numbers) {
      const last = parts.at(-1);
      if (last && number === last[1] + 1) last[1] = number; else parts.push([number, number]);
    }
    const said = parts.map(([first, last]) => (first === last ? `${first}` : `${first}–${last}`)).join(", ");
    return `${word}${numbers.length > 1 ? "s" : ""} ${said} ${numbers.length > 1 ? "are" : "is"}`;
  };

  function phrases(pairs, old) {
    const fresh = pairs.filter(([was]) => !was).map(([, now]) => now);
    const gone = pairs.filter(([, now]) => !now).map(([was]) => was);
    const other = pairs.filter(([was, now]) => was && now && old[was - 1] !== rows[now - 1]).map(([, now]) => now);
    return [
      fresh.length && `${named(fresh)} new`, gone.length && `what was ${named(gone)} gone`, other.length && `${named(other)} another`,
    ].filter(Boolean);
  }

  /** Where the knitter stands now, and what to tell her. */
  function compare(old, place) {
    const pairs = matched(old, rows);
    const row = Number.parseInt(place, 10) || 0;
    const at = pairs.findIndex(([was]) => was === row);
    const behind = at < 0 ? [] : pairs.slice(0, at), ahead = at < 0 ? pairs : pairs.slice(at);
    const here = (at < 0 ? 0 : pairs[at][1] || pairs.slice(at).find(([, now]) => now)?.[1] || rows.length);
    const lines = ["The chart has changed since you were here."];
    const past = phrases(behind, old), next = phrases(ahead, old);
    if (row > 1 && at >= 0) {
      lines.push(past.length ? `Below ${word} ${row}, where you were: ${past.join("; ")}.` : "All that you have knitted is as it was.");
      if (here !== row) lines.push(`You are at ${word} ${here} now.`);
      const turned = word === "row" && page.dataset.turned !== undefined && (here - row) % 2 !== 0;
      if (turned) lines.push("Right side and wrong side have changed places from there on.");
    }
    if (next.length) lines.push(`${row > 1 ? "From there on" : "In it"}: ${next.join("; ")}.`);
    if (!past.length && !next.length) lines.push(`No ${word} is another: colours, gauge, yarns or words are.`);
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
  card.addEventListener("lintarsia:row", keep);
})();
