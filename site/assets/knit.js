// Knitting along: one row at a time, by tap, key or link, and run by run within it; the place is kept in this browser.
(() => {
  "use strict";
  const { page, svg, shape, word, names, steps, store, own, view, phrase, halfWords } = globalThis.lintarsia ?? {};
  const card = view && page.querySelector('[data-part="card"]');
  if (!card) return;

  const ROW = own("row"), RUN = own("run"), DONE = own("finished");
  const rows = shape.rows, viewport = view.window, around = page.querySelector('[data-part="window"]');
  const at = (name) => steps.findIndex((step) => step.name === name) + 1; // counted from 1; 0 is none
  const kept = {
    get step() { return at(store.get(ROW)); },
    set step(step) {
      store.set(ROW, step ? steps[step - 1].name : null);
      store.set(own("word"), step && word === "round" ? word : null); // for the overview
    },
    unit(step) { const [name, unit] = (store.get(RUN) ?? "").split(":"); return name === step.name ? Number(unit) || 0 : 0; },
  };
  const say = page.querySelector('[data-part="say"]');
  const next = card.querySelector('[data-knit="next"]');
  let current = 0, unit = 0; // the step that is shown, and which of its runs is next

  // --- the drawing ------------------------------------------------------------------------------------------------
  const positions = new Map(); // of the steps of a row, and of a side's part of it
  steps.forEach(({ row, half }, index) => {
    for (const key of new Set([`${row}`, `${row}${half}`])) positions.set(key, [...(positions.get(key) ?? []), index + 1]);
  });
  const groups = [...svg.querySelectorAll("[data-row][data-side]")].flatMap((group) => {
    const halves = [...group.querySelectorAll("[data-half]")];
    group.classList.toggle("is-parted", halves.length > 0); // then its sides are dimmed, not the row
    return halves.length ? halves.map((half) => [`${group.dataset.row}${half.dataset.half}`, half]) : [[group.dataset.row, group]];
  });
  const whole = !groups.length; // a large chart has no group of a row: what is not the row is veiled
  const numbers = [...svg.querySelectorAll('[data-part="row-numbers"] text')].map((text) => [text.textContent, text]);
  const drawn = [...groups, ...numbers].map(([key, part]) => ({ part, known: positions.get(key) ?? [], state: "" }));
  const frame = lintarsia.rect("row-frame"), here = lintarsia.rect("run-frame"), done = lintarsia.rect("run-done");
  const above = lintarsia.rect("veil"), below = lintarsia.rect("veil is-done"), beside = [lintarsia.rect("veil"), lintarsia.rect("veil")];
  lintarsia.frames.push(frame);
  let listed = null; // the line of the current row in the list

  function mark(step) {
    for (const one of drawn) {
      const state = one.known.includes(step) ? "is-current" : one.known.at(-1) < step ? "is-done" : "";
      if (state === one.state) continue;
      if (one.state) one.part.classList.remove(one.state);
      if (state) one.part.classList.add(state);
      one.state = state;
    }
    listed?.classList.remove("is-current");
    listed = step ? document.getElementById(`row-${steps[step - 1].name}`)?.closest("tr") : null;
    if (!step) { for (const part of [frame, here, done, above, below, ...beside]) part.remove(); return; }
    listed?.classList.add("is-current");
    const { row, cells: [first, end] = [0, shape.columns] } = steps[step - 1];
    const across = { first: 1, last: shape.columns };
    if (whole) {
      if (row < rows) lintarsia.lay(above, { ...across, row: row + 1, rows: rows - row }); else above.remove();
      if (row > 1) lintarsia.lay(below, { ...across, row: 1, rows: row - 1 }); else below.remove();
      // Beside one side of an opening lies the other.
      if (first > 0) lintarsia.lay(beside[0], { row, first: shape.columns - first + 1, last: shape.columns }); else beside[0].remove();
      if (end < shape.columns) lintarsia.lay(beside[1], { row, first: 1, last: shape.columns - end }); else beside[1].remove();
    }
    lintarsia.lay(frame, { row, first: shape.columns - end + 1, last: shape.columns - first }, 1.5);
    frame.setAttribute("rx", "2");
  }

  /** Where in the row one is: what is done recedes, what comes next is framed. */
  function markUnit() {
    const step = steps[current - 1], units = step.units, now = units[unit];
    const spot = (columns) => ({ row: step.row, first: shape.columns - columns[1], last: shape.columns - columns[0] });
    if (units.length > 1 && now) lintarsia.lay(here, spot(now.columns), 1); else here.remove();
    const passed = units.slice(0, unit).flatMap((one) => one.columns);
    if (passed.length) lintarsia.lay(done, spot([Math.min(...passed), Math.max(...passed)])); else done.remove();
    return now ? spot(now.columns) : spot(units.at(-1)?.columns ?? [0, shape.columns - 1]);
  }

  const fromRight = () => steps[current - 1].leftward !== lintarsia.mirrored(); // on the screen

  /** Keep the row in the part of the window that the card leaves free, and of a wide one where one is. `still` are
   * stitches that are where they should be, and move only if they would be hidden. */
  function bringIntoView({ still = null } = {}) {
    const held = card.getBoundingClientRect();
    const beside = held.left >= around.getBoundingClientRect().right - 1; // the chart, or beneath it
    const free = beside ? innerHeight : held.top;
    viewport.style.maxHeight = `${Math.max(160, Math.round(free - 24))}px`;
    const unitSpot = markUnit(), spot = still || unitSpot;
    if (!still) {
      const seen = view.inner(), place = lintarsia.placeOf(spot);
      viewport.scrollTop += (place.top + place.bottom) / 2 - (seen.top + seen.bottom) / 2;
    }
    view.reveal(lintarsia.placeOf(spot), still ? 4 : 40, fromRight());
    const box = viewport.getBoundingClientRect();
    if (viewport.scrollHeight > viewport.clientHeight + 1 && !still && (box.top < 0 || box.bottom > free)) scrollBy({ top: box.top - 12, behavior: "instant" });
    const { top, bottom } = lintarsia.placeOf(spot), middle = (top + bottom) / 2;
    if (middle < free * 0.1 || middle > free * (still ? 0.95 : 0.85)) scrollBy({ top: middle - free / 2, behavior: "instant" });
    view.soon();
  }

  const lying = matchMedia("(orientation: landscape)");
  lying.addEventListener("change", () => { if (current) bringIntoView(); });

  /** Stitches that can be told apart at arm's length. */
  function enlarge() {
    if (lying.matches) view.room = 0; // a card beside the chart leaves it less
    view.atLeast(9, 13);
  }

  // --- from row to row --------------------------------------------------------------------------------------------
  /** `still`: a stitch was touched where it is, so that neither the zoom nor the place of the chart changes. */
  function go(step, { hash = true, still = null, to = null } = {}) {
    const first = !current, { name, row } = steps[step - 1];
    current = step;
    unit = to ?? kept.unit(steps[step - 1]);
    const shown = document.getElementById("show-chart"), larger = first && !still, early = larger && shown.checked && !lying.matches;
    if (early) enlarge(); // by what was laid out already
    page.classList.add("is-knitting");
    shown.checked = true;
    card.hidden = false;
    // Whatever changes the page comes before whatever measures it, so that it is laid out once.
    mark(step);
    if (larger && !early) enlarge();
    const detail = { name, row, step: steps[step - 1], unit, first: step <= 1, last: step >= steps.length, other: steps[step]?.row === row };
    card.dispatchEvent(new CustomEvent("lintarsia:row", { detail }));
    kept.step = step;
    keepUnit();
    store.set(DONE, null);
    if (hash && !first) address();
    bringIntoView({ still });
    if (hash && first) lintarsia.later(address);
    lintarsia.later(stayAwake);
  }

  /** The address has the row, for whoever comes back to it or sends it on; nobody waits for that. */
  const address = () => history.replaceState(null, "", current ? `#row-${steps[current - 1].name}` : location.pathname + location.search);

  const keepUnit = () => store.set(RUN, unit ? `${steps[current - 1].name}:${unit}` : null);

  function toUnit(to) {
    unit = Math.min(steps[current - 1].units.length, Math.max(0, to));
    keepUnit();
    card.dispatchEvent(new CustomEvent("lintarsia:unit", { detail: { unit } }));
    view.reveal(lintarsia.placeOf(markUnit()), 40, fromRight());
  }

  function stop({ hash = true } = {}) {
    const held = card.contains(document.activeElement);
    current = 0;
    page.classList.remove("is-knitting");
    card.hidden = true;
    mark(0);
    lintarsia.never(address);
    if (hash) address();
    viewport.style.maxHeight = "";
    release();
    offer();
    view.soon();
    if (held) start.focus({ preventScroll: true });
  }

  /** The last row is knitted. It can be taken back, and the way to that is in sight. */
  function finish() {
    store.set(DONE, steps[current - 1].name);
    kept.step = 0;
    store.set(RUN, null);
    stop();
    how.scrollIntoView({ block: "center", behavior: "instant" });
  }

  /** A link to a row that the chart does not have. */
  function refuse(row) {
    if (current) stop({ hash: false });
    lintarsia.tell(null);
    const [number, half] = row.split("-"), side = half ? `, ${halfWords(half)}` : "";
    how.textContent = phrase("There is no {word} {row}: the last is {word} {rows}.", { ...names, row: `${number}${side}`, rows });
    say.textContent = how.textContent;
    how.scrollIntoView({ block: "center" });
  }

  card.addEventListener("click", (event) => {
    const kind = event.target.closest("button")?.dataset.knit;
    if (kind === "fold") bringIntoView({ still: markUnit() });
    if (kind === "tick") toUnit(unit + 1);
    if (kind === "next") { if (current >= steps.length) finish(); else go(current + 1); }
    if (kind === "back") go(Math.max(1, current - 1));
    if (kind === "close") stop();
  });
  card.addEventListener("lintarsia:here", (event) => toUnit(event.detail === unit ? unit + 1 : event.detail));

  // A tap picks the stitch where one is; a drag moves the chart and picks none.
  let down = null;
  svg.addEventListener("pointerdown", (event) => { down = event.isPrimary ? [event.clientX, event.clientY] : null; });
  svg.addEventListener("click", (event) => {
    if (!down || Math.hypot(event.clientX - down[0], event.clientY - down[1]) > 8) return;
    const spot = lintarsia.under(event);
    if (!spot) return;
    const found = lintarsia.stitchAt(spot.row, spot.first), column = shape.columns - spot.first;
    const near = ({ cells }) => (cells ? Math.abs(column + 0.5 - (cells[0] + cells[1]) / 2) : 0);
    const [picked] = found ? [found.step] : [...(lintarsia.ofRow.get(spot.row) ?? [])].sort((one, other) => near(one) - near(other));
    if (picked) go(picked.at, { still: spot, to: found?.unit ?? 0 });
  });

  addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.defaultPrevented || event.target.closest?.("dialog")) return;
    const within = event.target.closest?.('input, select, textarea, [contenteditable], [data-part="card-body"][tabindex]:focus');
    if (within && event.key !== "Escape") return;
    if (!current && !viewport.contains(document.activeElement)) return;
    const step = { ArrowUp: 1, ArrowDown: -1 }[event.key], run = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (step) go(current ? Math.min(steps.length, Math.max(1, current + step)) : kept.step || 1);
    else if (run && current) toUnit(unit + run);
    else if (event.key === "Home" && current) go(1);
    else if (event.key === "End" && current) go(steps.length);
    else if (event.key === "Escape" && current) { stop(); viewport.focus({ preventScroll: true }); } else return;
    event.preventDefault();
  });

  const fromHash = () => /^#row-([0-9]{1,9}(?:-(?:left|right))?)$/.exec(location.hash)?.[1] ?? null;
  const follow = (name) => { const step = at(name); if (step) go(step, { hash: false }); else refuse(name); };
  addEventListener("hashchange", () => {
    const name = fromHash();
    if (name !== null) follow(name);
    else if (current && !location.hash) stop({ hash: false }); // one went back to where no row was shown
    else if (current && lintarsia.addressed(location.hash)) stop({ hash: false }); // stitches to look at
  });
  for (const kind of ["lintarsia:hands", "lintarsia:moved"]) page.addEventListener(kind, () => { if (current) bringIntoView({ still: markUnit() }); });

  // --- coming back ------------------------------------------------------------------------------------------------
  const start = page.querySelector('[data-part="start"]'), how = page.querySelector('[data-part="start-how"]');
  lintarsia.rest(() => { how.hidden = false; });
  /** Words that stand there already are left alone: the page would be laid out again. */
  const reword = (part, words) => { if (part.childNodes.length !== 1 || part.textContent !== words) part.textContent = words; };
  function offer() {
    const place = kept.step, finished = place ? 0 : at(store.get(DONE));
    const { name, row, half } = steps[Math.max(place, 1) - 1];
    reword(how, finished ? phrase("Finished.") : phrase("or pick a {word} in the chart", names));
    if (finished) {
      const undo = document.createElement("button");
      undo.type = "button";
      undo.textContent = phrase("Not yet: back to {word} {row}", { ...names, row: steps[finished - 1].row });
      undo.addEventListener("click", () => { go(finished); next.focus({ preventScroll: true }); });
      how.append(" ", undo);
    }
    reword(start, place > 1 ? `${phrase("Go on at {word} {row}", { ...names, row })}${half && `, ${halfWords(half)}`}` : phrase("Start at {word} 1", names));
    if (start.hash !== `#row-${name}`) start.setAttribute("href", `#row-${name}`);
  }
  start.addEventListener("click", (event) => {
    event.preventDefault();
    go(at(start.hash.slice(5)) || 1);
    next.focus({ preventScroll: true }); // the link that had the focus is gone while a row is shown
  });

  // --- the screen stays on, where it can ----------------------------------------------------------------------------
  let lock = null;
  async function stayAwake() {
    if (!current || lock || !navigator.wakeLock || document.visibilityState !== "visible") return;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
      if (!current) release();
    } catch { lock = null; /* the battery is low, or the browser says no */ }
  }
  function release() { lock?.release(); lock = null; }
  addEventListener("visibilitychange", () => { if (current) stayAwake(); });
  page.addEventListener("lintarsia:gone", release); // a theme of somebody else's has put another page in its place

  offer();
  if (fromHash() !== null) {
    follow(fromHash());
    // The browser goes to the row in the list below, which is what the link means without this script.
    const settle = () => requestAnimationFrame(() => { if (current) bringIntoView(); });
    if (document.readyState === "complete") settle(); else addEventListener("load", settle, { once: true });
  }
})();
