// Knitting along: one row at a time, by tap, key or link; the place is kept in this browser.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const svg = page && page.querySelector('[data-part="viewport"] svg[data-rows]');
  const card = page && page.querySelector('[data-part="card"]');
  if (!svg || !card) return;

  const KEY = `lintarsia:row:${location.pathname}`;
  const store = {
    get() { try { return Number(localStorage.getItem(KEY)) || 0; } catch { return 0; } },
    set(row) { try { if (row) localStorage.setItem(KEY, String(row)); else localStorage.removeItem(KEY); } catch { /* not kept */ } },
  };
  const word = page.dataset.word;
  const rows = Number(svg.dataset.rows);
  const say = page.querySelector('[data-part="say"]');
  const next = card.querySelector('[data-knit="next"]');
  let current = 0;

  // --- the drawing ------------------------------------------------------------------------------------------------
  const drawn = [...svg.querySelectorAll("[data-row][data-side]")].map((group) => [Number(group.dataset.row), group]);
  drawn.push(...[...svg.querySelectorAll('[data-part="row-numbers"] text')].map((text) => [Number(text.textContent), text]));
  const frame = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  frame.setAttribute("class", "row-frame");
  frame.setAttribute("rx", "2");
  const shape = Object.fromEntries(["columns", "left", "top", "cellWidth", "cellHeight"].map((name) => [name, Number(svg.dataset[name])]));

  let listed = null; // the line of the current row in the list

  function mark(row) {
    for (const [number, part] of drawn) {
      part.classList.toggle("is-current", number === row);
      part.classList.toggle("is-done", number < row);
    }
    listed?.classList.remove("is-current");
    listed = row ? document.getElementById(`row-${row}`) : null;
    if (!row) return frame.remove();
    listed?.classList.add("is-current");
    frame.setAttribute("x", shape.left - 1.5);
    frame.setAttribute("y", shape.top + (rows - row) * shape.cellHeight - 1.5);
    frame.setAttribute("width", shape.columns * shape.cellWidth + 3);
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
    let at = frame.getBoundingClientRect();
    if (turned && viewport.scrollWidth > viewport.clientWidth) {
      viewport.scrollLeft = document.getElementById(`row-${current}`).dataset.way === "left" ? viewport.scrollWidth : 0;
    }
    if (viewport.scrollHeight > viewport.clientHeight + 1) {
      viewport.scrollTop += at.top + at.height / 2 - (inner.top + inner.height / 2);
      const box = viewport.getBoundingClientRect();
      if (box.top < 0 || box.bottom > free) scrollBy({ top: box.top - 12, behavior: "instant" });
      at = frame.getBoundingClientRect();
    }
    const middle = at.top + at.height / 2;
    if (middle < free * 0.15 || middle > free * 0.85) scrollBy({ top: middle - free / 2, behavior: "instant" });
  }

  matchMedia("(orientation: landscape)").addEventListener("change", () => { if (current) bringIntoView(true); });

  // --- from row to row --------------------------------------------------------------------------------------------
  function go(row, { hash = true, keep = true } = {}) {
    if (!(row >= 1 && row <= rows)) return refuse(row);
    const first = !current;
    current = row;
    page.classList.add("is-knitting");
    document.getElementById("show-chart").checked = true;
    card.hidden = false;
    card.dispatchEvent(new CustomEvent("lintarsia:row", { detail: row }));
    mark(row);
    if (keep) store.set(row);
    if (hash) history.replaceState(null, "", `#row-${row}`);
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
    how.textContent = `There is no ${word} ${row}: the last is ${word} ${rows}.`;
    say.textContent = how.textContent;
    how.scrollIntoView({ block: "center" });
  }

  card.addEventListener("click", (event) => {
    const kind = event.target.closest("button")?.dataset.knit;
    if (kind === "fold") bringIntoView(false);
    if (kind === "next") { if (current >= rows) { store.set(0); stop(); } else go(current + 1); }
    if (kind === "back") go(current - 1);
    if (kind === "close") stop();
  });

  // A tap picks a row; a drag moves the chart and picks none.
  let down = null;
  svg.addEventListener("pointerdown", (event) => { down = event.isPrimary ? [event.clientX, event.clientY] : null; });
  svg.addEventListener("click", (event) => {
    if (!down || Math.hypot(event.clientX - down[0], event.clientY - down[1]) > 8) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const row = rows - Math.floor((point.y - shape.top) / shape.cellHeight);
    if (row >= 1 && row <= rows) go(row);
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
      go(current ? Math.min(rows, Math.max(1, current + step)) : store.get() || 1);
    } else if (event.key === "Home" && current) { event.preventDefault(); go(1); }
    else if (event.key === "End" && current) { event.preventDefault(); go(rows); }
    else if (event.key === "Escape" && current) { stop(); svg.closest('[data-part="viewport"]').focus({ preventScroll: true }); }
  });

  const fromHash = () => { const row = /^#row-([0-9]{1,9})$/.exec(location.hash); return row && Number(row[1]); };
  addEventListener("hashchange", () => {
    const row = fromHash();
    if (row !== null) go(row, { hash: false });
    else if (current && !location.hash) stop({ hash: false }); // one went back to where no row was shown
  });

  // --- coming back ------------------------------------------------------------------------------------------------
  const start = page.querySelector('[data-part="start"]'), how = page.querySelector('[data-part="start-how"]');
  how.hidden = false;
  function offer() {
    how.textContent = `or pick a ${word} in the chart`;
    const kept = store.get();
    start.textContent = kept > 1 && kept <= rows ? `Go on at ${word} ${kept}` : `Start at ${word} 1`;
    start.setAttribute("href", kept > 1 && kept <= rows ? `#row-${kept}` : "#row-1");
  }
  start.addEventListener("click", (event) => {
    event.preventDefault();
    go(Number(start.hash.slice(5)));
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
    go(fromHash(), { hash: false });
    // The browser goes to the row in the list below, which is what the link means without this script.
    const settle = () => requestAnimationFrame(() => { if (current) bringIntoView(true); });
    if (document.readyState === "complete") settle(); else addEventListener("load", settle, { once: true });
  }
})();
