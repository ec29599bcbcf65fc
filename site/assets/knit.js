// Knitting along: one row at a time, by tap, key or link; the place is kept in this browser.
(() => {
  "use strict";
  const page = document.querySelector(".chart-page");
  const svg = page && page.querySelector("svg.lx-chart");
  const card = page && page.querySelector(".knit-card");
  if (!svg || !card) return;

  const KEY = `lintarsia:row:${location.pathname}`;
  const store = {
    get() { try { return Number(localStorage.getItem(KEY)) || 0; } catch { return 0; } },
    set(row) { try { if (row) localStorage.setItem(KEY, String(row)); else localStorage.removeItem(KEY); } catch { /* not kept */ } },
  };
  const word = page.dataset.word;
  const rows = Number(svg.dataset.rows);
  const body = card.querySelector(".knit-body");
  const title = card.querySelector("#knit-title");
  const say = page.querySelector("#knit-say");
  const back = card.querySelector('[data-knit="back"]');
  const next = card.querySelector('[data-knit="next"]');
  const fold = card.querySelector('[data-knit="fold"]');
  const supplies = new Map([...page.querySelectorAll("tr[data-supply]")].map((tr) => [tr.dataset.supply, tr.dataset]));
  let current = 0;

  const make = (name, text, kind) => {
    const element = document.createElement(name);
    if (text !== undefined) element.textContent = text;
    if (kind) element.className = kind;
    return element;
  };

  const draw = (name, attributes) => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    return element;
  };

  // --- a row, as the list below tells it ----------------------------------------------------------------------------
  function read(row) {
    const line = document.getElementById(`row-${row}`);
    const told = (kind) => line.querySelector(kind)?.textContent ?? "";
    return {
      row,
      side: told(".side"),
      leftward: line.classList.contains("rtl"),
      shaped: told(".shaped"),
      resting: told(".rests"),
      crossings: Number.parseInt(told(".crossings"), 10) || 0,
      runs: [...line.querySelectorAll(".run")].map((part) => ({
        part, stitches: Number(part.querySelector("b").textContent), name: part.querySelector("span").textContent, yarn: part.querySelector("em").textContent,
      })),
      yarns: [...line.querySelectorAll(".hangs li")].map((li) => ({
        id: li.querySelector("b").textContent, hang: li.dataset.hang, kind: li.className, notes: [...li.querySelectorAll("i")].map((i) => i.textContent),
      })),
    };
  }

  const LONG = 8; // runs that can be told with their names before a card is full

  /** A long row that is one stretch of stitches over and over, by the same yarns: the stretch, how often, and what is left. */
  function repeated(runs) {
    if (runs.length <= LONG) return null;
    const stitches = runs.flatMap((run) => Array(run.stitches).fill(run));
    for (let wide = 2; wide * 2 <= stitches.length; wide++) {
      if (!stitches.every((run, i) => i < wide || run.yarn === stitches[i - wide].yarn)) continue;
      const times = Math.floor(stitches.length / wide);
      return { wide, times: times === 2 ? "twice" : `${times} times`, runs: gather(stitches.slice(0, wide)), rest: gather(stitches.slice(times * wide)) };
    }
    return null;
  }

  function gather(stitches) {
    const runs = [];
    for (const run of stitches) {
      if (runs.at(-1)?.yarn === run.yarn) runs.at(-1).stitches += 1;
      else runs.push({ ...run, stitches: 1 });
    }
    return runs;
  }

  // --- the card ---------------------------------------------------------------------------------------------------
  function fillCard(row) {
    const told = read(row), again = repeated(told.runs);
    title.replaceChildren(`${word[0].toUpperCase()}${word.slice(1)} ${row}`);
    if (told.side) title.append(" ", make("small", told.side));
    const reading = make("small", "chart ", "reading");
    reading.append(make("span", told.leftward ? "←" : "→", "arrow"));
    reading.setAttribute("aria-hidden", "true");
    title.append(" ", reading);
    body.classList.toggle("many", told.yarns.length > LONG);
    body.replaceChildren(hanging(told), working(told, again));
    body.scrollTop = 0;
    back.disabled = row <= 1;
    next.textContent = row >= rows ? "Finished" : `Next ${word} ›`;
    say.textContent = sentence(told, again);
  }

  /** The yarns as they hang before the knitter, whichever side faces her: the first to be used at the needle's tip. */
  function hanging(told) {
    const part = make("div", undefined, "hanging");
    const crossing = crossed(told);
    if (crossing) part.append(make("p", `Before you begin, ${crossing}.`, "before"));
    const facing = told.side ? `${told.side[0].toUpperCase()}${told.side.slice(1)} facing you` : "As they hang before you";
    const caption = make("p", `${facing} · first at the right`, "caption");
    caption.id = "knit-hang";
    const lineUp = make("div", undefined, "line-up");
    lineUp.setAttribute("role", "group");
    lineUp.setAttribute("aria-labelledby", "knit-hang");
    const hangs = make("ol", undefined, "hangs");
    hangs.append(...told.yarns.map(hung));
    lineUp.append(hangs);
    if (told.yarns.length) part.append(caption, lineUp);
    if (told.resting) part.append(make("p", told.resting, "rests"));
    return part;
  }

  function hung(yarn) {
    const item = make("li", undefined, yarn.kind), known = supplies.get(yarn.id);
    if (yarn.hang) {
      const drawing = draw("svg", { class: "hang", viewBox: "0 0 52 92", "aria-hidden": "true" });
      drawing.append(draw("use", { href: `#hang-${yarn.hang}` }));
      item.append(drawing);
    }
    item.append(make("b", yarn.id), " ");
    if (known) item.append(make("span", known.colour), " ", make("span", known.holder, "holder"), " ");
    for (const note of yarn.notes) item.append(make("i", note), " ");
    return item;
  }

  function working(told, again) {
    const part = make("div", undefined, "work");
    if (told.shaped) part.append(make("p", told.shaped, "shaped"));
    const runs = make("div", undefined, "runs");
    const show = (list) => list.flatMap((run) => {
      const copy = run.part.cloneNode(true);
      copy.querySelector("b").textContent = run.stitches;
      return [copy, " "];
    });
    if (again) {
      part.append(make("p", `${again.wide} stitches, ${again.times}:`, "again"));
      runs.append(...show(again.runs));
      if (again.rest.length) runs.append(make("span", "then", "then"), " ", ...show(again.rest));
    } else runs.append(...(told.runs.length ? show(told.runs) : ["no stitches"]));
    runs.classList.toggle("brief", runs.childElementCount > LONG);
    const colours = new Set(told.runs.map((run) => run.name)), yarns = new Set(told.runs.map((run) => run.yarn));
    runs.classList.toggle("one-each", colours.size === yarns.size); // a colour then says which yarn
    part.append(runs);
    return part;
  }

  const crossed = ({ crossings }) => crossings && (crossings === 1 ? "1 pair of yarns has to cross" : `${crossings} pairs of yarns have to cross`);

  function sentence(told, again) {
    const list = (runs) => runs.map((run) => `${run.stitches} ${run.name}`).join(", ");
    const stitches = again ? `${again.wide} stitches, ${again.times}: ${list(again.runs)}${again.rest.length ? `; then ${list(again.rest)}` : ""}` : list(told.runs) || "no stitches";
    const named = (kind) => told.yarns.filter((yarn) => yarn.kind.includes(kind)).map((yarn) => `${yarn.id} ${supplies.get(yarn.id)?.colour ?? ""}`.trim()).join(", ");
    const joins = named("new"), lasts = named("last"), crossing = crossed(told);
    return `${[`${word} ${told.row}`, told.side, `${told.leftward ? "right to left" : "left to right"} on the chart`, told.shaped].filter(Boolean).join(", ")}: ${stitches}.`
      + (crossing ? ` Before you begin, ${crossing}.` : "") + (joins ? ` Join ${joins}.` : "") + (lasts ? ` Last ${word} of ${lasts}.` : "");
  }

  /** What does not fit can be scrolled to, by the keyboard too; the line-up shows the end where the row begins. */
  function reach() {
    const lineUp = body.querySelector(".line-up");
    if (lineUp) {
      lineUp.scrollLeft = lineUp.scrollWidth;
      lineUp.onscroll = () => lineUp.classList.toggle("more", lineUp.scrollLeft > 4);
      lineUp.onscroll();
    }
    for (const part of [body, lineUp]) {
      if (!part) continue;
      if (part.scrollWidth > part.clientWidth + 1 || part.scrollHeight > part.clientHeight + 1) part.tabIndex = 0;
      else part.removeAttribute("tabindex");
    }
  }

  // --- the drawing ------------------------------------------------------------------------------------------------
  const drawn = [...svg.querySelectorAll(".lx-row")].map((group) => [Number(group.dataset.row), group]);
  drawn.push(...[...svg.querySelectorAll(".lx-row-numbers text")].map((text) => [Number(text.textContent), text]));
  const frame = draw("rect", { class: "row-frame", rx: 2 });
  const shape = Object.fromEntries(["columns", "left", "top", "cellWidth", "cellHeight"].map((name) => [name, Number(svg.dataset[name])]));

  function mark(row) {
    for (const [number, part] of drawn) {
      part.classList.toggle("is-current", number === row);
      part.classList.toggle("is-done", number < row);
    }
    for (const old of page.querySelectorAll("tr.is-current")) old.classList.remove("is-current");
    if (!row) return frame.remove();
    document.getElementById(`row-${row}`)?.classList.add("is-current");
    frame.setAttribute("x", shape.left - 1.5);
    frame.setAttribute("y", shape.top + (rows - row) * shape.cellHeight - 1.5);
    frame.setAttribute("width", shape.columns * shape.cellWidth + 3);
    frame.setAttribute("height", shape.cellHeight + 3);
    svg.append(frame);
  }

  /** Keep the row in the part of the window that the card leaves free; of a wide one, the end where it starts. */
  function bringIntoView(turned) {
    const viewport = svg.closest(".viewport");
    const held = card.getBoundingClientRect();
    const free = held.width < innerWidth ? innerHeight : held.top; // beside the chart, or beneath it
    page.style.setProperty("--li-free", `${Math.max(160, Math.round(free - 24))}px`);
    const inner = viewport.getBoundingClientRect();
    let at = frame.getBoundingClientRect();
    if (turned && viewport.scrollWidth > viewport.clientWidth) {
      viewport.scrollLeft = document.getElementById(`row-${current}`).classList.contains("rtl") ? viewport.scrollWidth : 0;
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

  // --- from row to row --------------------------------------------------------------------------------------------
  function go(row, { hash = true, keep = true } = {}) {
    if (!(row >= 1 && row <= rows)) return refuse(row);
    const first = !current;
    current = row;
    page.classList.add("is-knitting");
    document.getElementById("show-chart").checked = true;
    card.hidden = false;
    fillCard(row);
    reach();
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
    if (kind === "fold") {
      fold.setAttribute("aria-expanded", String(!card.classList.toggle("is-folded")));
      reach();
      bringIntoView(false);
    }
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
    const within = event.target.closest?.("input, select, textarea, [contenteditable], .knit-body");
    if (within && event.key !== "Escape") return;
    const viewport = svg.closest(".viewport");
    if (!current && !viewport.contains(document.activeElement)) return;
    const step = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (step) {
      event.preventDefault();
      go(current ? Math.min(rows, Math.max(1, current + step)) : store.get() || 1);
    } else if (event.key === "Home" && current) { event.preventDefault(); go(1); }
    else if (event.key === "End" && current) { event.preventDefault(); go(rows); }
    else if (event.key === "Escape" && current) { stop(); svg.closest(".viewport").focus({ preventScroll: true }); }
  });

  const fromHash = () => { const row = /^#row-([0-9]{1,9})$/.exec(location.hash); return row && Number(row[1]); };
  addEventListener("hashchange", () => {
    const row = fromHash();
    if (row !== null) go(row, { hash: false });
    else if (current && !location.hash) stop({ hash: false }); // one went back to where no row was shown
  });

  // --- coming back ------------------------------------------------------------------------------------------------
  const start = page.querySelector(".start"), how = page.querySelector(".go-how");
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
