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
  const ROOM = 12; // CSS pixels above and below the chart's window, where the card is
  let current = 0, unit = 0; // the step that is shown, and which of its runs is next

  const mark = lintarsia.brighten;
  const markUnit = () => lintarsia.brightenUnit(steps[current - 1], unit);
  const fromRight = () => steps[current - 1].leftward !== lintarsia.mirrored(); // on the screen

  /** Keep the row in the part of the screen that the card leaves free, and of a wide one where one is. `still` are
   * stitches that are where they should be, and move only if they would be hidden. */
  function bringIntoView({ still = null } = {}) {
    const held = card.getBoundingClientRect();
    const beside = held.left >= around.getBoundingClientRect().right - 1; // the chart, or beneath it
    const free = beside ? innerHeight : held.top;
    const over = Number.parseFloat(page.style.getPropertyValue("--li-over")) || 0; // where a theme has something over it
    viewport.style.maxHeight = `${Math.max(160, Math.round(free - over - 2 * ROOM))}px`;
    const unitSpot = markUnit(), spot = still || unitSpot;
    if (!still || !beside) clear(over, free, still);
    if (!still) {
      const seen = view.inner(), place = lintarsia.placeOf(spot);
      viewport.scrollTop += (place.top + place.bottom) / 2 - (seen.top + seen.bottom) / 2;
    }
    view.reveal(lintarsia.placeOf(spot), still ? 4 : 40, fromRight());
    const { top, bottom } = lintarsia.placeOf(spot);
    if (top < over || bottom > free) scrollBy({ top: (top + bottom - over - free) / 2, behavior: "instant" }); // of a window that is taller
    view.soon();
  }

  /** The chart's window, with the numbers at its foot, to where nothing covers it; what it shows stays where it is. */
  function clear(over, free, still) {
    const { top, bottom } = viewport.getBoundingClientRect(), before = scrollY;
    if (top >= over && bottom <= free) return;
    scrollBy({ top: Math.min(top - over - ROOM, Math.max(0, bottom - free + ROOM)), behavior: "instant" });
    if (still) viewport.scrollTop -= scrollY - before;
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
