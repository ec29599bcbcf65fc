// Knitting along: one row at a time, by tap, key or link; the place is kept in this browser.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const svg = page && page.querySelector('[data-part="viewport"] svg[data-rows]');
  const card = page && page.querySelector('[data-part="card"]');
  if (!svg || !card) return;

  const KEY = `lintarsia:row:${location.pathname}`;
  const word = page.dataset.word;
  const rows = Number(svg.dataset.rows);
  // A step is a row, or one side's part of it where the work is parted; the list has them in the order of working.
  const steps = [...page.querySelectorAll("[data-way]")].map((line) => ({
    line, name: line.id.slice(4), row: Number.parseInt(line.id.slice(4), 10), half: line.dataset.half ?? "", cells: line.dataset.cells?.split(" ").map(Number),
  }));
  const at = (name) => steps.findIndex((step) => step.name === name) + 1; // counted from 1; 0 is none
  const store = {
    get() { try { return at(localStorage.getItem(KEY)); } catch { return 0; } },
    set(step) { try { if (step) localStorage.setItem(KEY, steps[step - 1].name); else localStorage.removeItem(KEY); } catch { /* not kept */ } },
  };
  const say = page.querySelector('[data-part="say"]');
  const next = card.querySelector('[data-knit="next"]');
  let current = 0; // the step that is shown

  // --- the drawing ------------------------------------------------------------------------------------------------
  const positions = new Map(); // of the steps of a row, and of a side's part of it
  steps.forEach(({ row, half }, index) => {
    for (const key of new Set([`${row}`, `${row}${half}`])) positions.set(key, [...(positions.get(key) ?? []), index + 1]);
  });
  const drawn = [...svg.querySelectorAll("[data-row][data-side]")].flatMap((group) => {
    const halves = [...group.querySelectorAll("[data-half]")];
    return halves.length ? halves.map((half) => [`${group.dataset.row}${half.dataset.half}`, half]) : [[group.dataset.row, group]];
  });
  drawn.push(...[...svg.querySelectorAll('[data-part="row-numbers"] text')].map((text) => [text.textContent, text]));
  const frame = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  frame.setAttribute("class", "row-frame");
  frame.setAttribute("rx", "2");
  const shape = Object.fromEntries(["columns", "left", "top", "cellWidth", "cellHeight"].map((name) => [name, Number(svg.dataset[name])]));

  let listed = null; // the line of the current row in the list

  function mark(step) {
    for (const [key, part] of drawn) {
      const known = positions.get(key) ?? [];
      part.classList.toggle("is-current", known.includes(step));
      part.classList.toggle("is-done", known.length > 0 && known.every((position) => position < step));
    }
    listed?.classList.remove("is-current");
    listed = step ? steps[step - 1].line : null;
    if (!step) return frame.remove();
    listed.classList.add("is-current");
    const { row, cells: [first, end] = [0, shape.columns] } = steps[step - 1];
    frame.setAttribute("x", shape.left + first * shape.cellWidth - 1.5);
    frame.setAttribute("y", shape.top + (rows - row) * shape.cellHeight - 1.5);
    frame.setAttribute("width", (end - first) * shape.cellWidth + 3);
    frame.setAttribute("height", shape.cellHeight + 3);
    svg.append(frame);
  }

  /** Keep the row in the part of the window that the card leaves free; of a wide one, the end where it starts. */
  function bringIntoView(turned) {
    const viewport = svg.closest('[data-part="viewport"]');
    const held = card.getBoundingClientRect();
    const free = held.width < document.documentElement.clientWidth ? innerHeight : held.top; // beside the chart, or beneath it
    page.style.setProperty("--li-free", `${Math.max(160, Math.round(free - 24))}px`);
    const inner = viewport.getBoundingClientRect();
    let spot = frame.getBoundingClientRect();
    if (turned && viewport.scrollWidth > viewport.clientWidth) {
      const leftward = listed.dataset.way === "left";
      if (steps[current - 1].cells) viewport.scrollLeft += leftward ? spot.right - inner.right + 40 : spot.left - inner.left - 40;
      else viewport.scrollLeft = leftward ? viewport.scrollWidth : 0;
    }
    if (viewport.scrollHeight > viewport.clientHeight + 1) {
      viewport.scrollTop += spot.top + spot.height / 2 - (inner.top + inner.height / 2);
      const box = viewport.getBoundingClientRect();
      if (box.top < 0 || box.bottom > free) scrollBy({ top: box.top - 12, behavior: "instant" });
      spot = frame.getBoundingClientRect();
    }
    const middle = spot.top + spot.height / 2;
    if (middle < free * 0.15 || middle > free * 0.85) scrollBy({ top: middle - free / 2, behavior: "instant" });
  }

  matchMedia("(orientation: landscape)").addEventListener("change", () => { if (current) bringIntoView(true); });

  // --- from row to row --------------------------------------------------------------------------------------------
  function go(step, { hash = true, keep = true } = {}) {
    const first = !current, { name, row } = steps[step - 1];
    current = step;
    page.classList.add("is-knitting");
    document.getElementById("show-chart").checked = true;
    card.hidden = false;
    card.dispatchEvent(new CustomEvent("lintarsia:row", {
      detail: { name, first: step <= 1, last: step >= steps.length, other: steps[step]?.row === row },
    }));
    mark(step);
    if (keep) store.set(step);
    if (hash) history.replaceState(null, "", `#row-${name}`);
    if (first) svg.dispatchEvent(new CustomEvent("lintarsia:cell", { detail: { least: 9, wanted: 13 } }));
    bringIntoView(true);
    stayAwake();
  }

  function stop({ hash = true } = {}) {
    const held = card.contains(document.activeElement);
    current = 0;
    page.classList.remove("is-knitting");
    card.hidden = true;
    mark(0);
    if (hash) history.replaceState(null, "", location.pathname + location.search);
    page.style.removeProperty("--li-free");
    release();
    offer();
    if (held) start.focus({ preventScroll: true });
  }

  /** A link to a row that the chart does not have. */
  function refuse(row) {
    if (current) stop({ hash: false });
    how.textContent = `There is no ${word} ${row.replace("-", " on the ")}: the last is ${word} ${rows}.`;
    say.textContent = how.textContent;
    how.scrollIntoView({ block: "center" });
  }

  card.addEventListener("click", (event) => {
    const kind = event.target.closest("button")?.dataset.knit;
    if (kind === "fold") bringIntoView(false);
    if (kind === "next") { if (current >= steps.length) { store.set(0); stop(); } else go(current + 1); }
    if (kind === "back") go(Math.max(1, current - 1));
    if (kind === "close") stop();
  });

  // A tap picks a row; a drag moves the chart and picks none.
  let down = null;
  svg.addEventListener("pointerdown", (event) => { down = event.isPrimary ? [event.clientX, event.clientY] : null; });
  svg.addEventListener("click", (event) => {
    if (!down || Math.hypot(event.clientX - down[0], event.clientY - down[1]) > 8) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const row = rows - Math.floor((point.y - shape.top) / shape.cellHeight);
    const near = ({ cells }) => cells ? Math.abs((point.x - shape.left) / shape.cellWidth - (cells[0] + cells[1]) / 2) : 0;
    const [picked] = steps.filter((step) => step.row === row).sort((one, other) => near(one) - near(other));
    if (picked) go(steps.indexOf(picked) + 1);
  });

  addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.defaultPrevented) return;
    const within = event.target.closest?.('input, select, textarea, [contenteditable], [data-part="card-body"]');
    if (within && event.key !== "Escape") return;
    const viewport = svg.closest('[data-part="viewport"]');
    if (!current && !viewport.contains(document.activeElement)) return;
    const step = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (step) {
      event.preventDefault();
      go(current ? Math.min(steps.length, Math.max(1, current + step)) : store.get() || 1);
    } else if (event.key === "Home" && current) { event.preventDefault(); go(1); }
    else if (event.key === "End" && current) { event.preventDefault(); go(steps.length); }
    else if (event.key === "Escape" && current) { stop(); svg.closest('[data-part="viewport"]').focus({ preventScroll: true }); }
  });

  const fromHash = () => /^#row-([0-9]{1,9}(?:-(?:left|right))?)$/.exec(location.hash)?.[1] ?? null;
  const follow = (name) => { const step = at(name); if (step) go(step, { hash: false }); else refuse(name); };
  addEventListener("hashchange", () => {
    const name = fromHash();
    if (name !== null) follow(name);
    else if (current && !location.hash) stop({ hash: false }); // one went back to where no row was shown
  });

  // --- coming back ------------------------------------------------------------------------------------------------
  const start = page.querySelector('[data-part="start"]'), how = page.querySelector('[data-part="start-how"]');
  how.hidden = false;
  function offer() {
    how.textContent = `or pick a ${word} in the chart`;
    const kept = store.get();
    const { name, row, half } = steps[Math.max(kept, 1) - 1];
    start.textContent = kept > 1 ? `Go on at ${word} ${row}${half && `, ${half}-hand side`}` : `Start at ${word} 1`;
    start.setAttribute("href", `#row-${name}`);
  }
  start.addEventListener("click", (event) => {
    event.preventDefault();
    go(at(start.hash.slice(5)) || 1);
    next.focus({ preventScroll: true }); // the link that had the focus is gone while a row is shown
  });

  // --- the screen stays on, where it can ----------------------------------------------------------------------------
  let lock = null;
  async function stayAwake() {
    if (lock || !navigator.wakeLock || document.visibilityState !== "visible") return;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
      if (!current) release();
    } catch { lock = null; /* the battery is low, or the browser says no */ }
  }
  function release() { lock?.release(); lock = null; }
  document.addEventListener("visibilitychange", () => { if (current) stayAwake(); });

  offer();
  if (fromHash() !== null) {
    follow(fromHash());
    // The browser goes to the row in the list below, which is what the link means without this script.
    const settle = () => requestAnimationFrame(() => { if (current) bringIntoView(true); });
    if (document.readyState === "complete") settle(); else addEventListener("load", settle, { once: true });
  }
})();
