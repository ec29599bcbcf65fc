// A chart's page: larger and smaller, stitches that an address names, and results that light up theirs.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const viewport = page && page.querySelector('[data-part="viewport"]');
  const svg = viewport && viewport.querySelector("svg[data-rows]");
  if (!svg) return;

  // --- size -------------------------------------------------------------------------------------------------------
  const natural = svg.viewBox.baseVal.width;
  const LEAST = 1, MOST = 8;
  let zoom = 1;
  // A small chart is not blown up beyond what a stitch needs to be seen and tapped.
  viewport.style.setProperty("--li-fit", `${Math.round(natural * 1.7)}px`);

  function fitWidth() {
    const style = getComputedStyle(viewport);
    const room = viewport.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    return Math.min(room, natural * 1.7);
  }

  function setZoom(to, atX, atY) {
    const before = svg.getBoundingClientRect();
    const view = viewport.getBoundingClientRect();
    const x = atX ?? view.left + view.width / 2;
    const y = atY ?? view.top + view.height / 2;
    const partX = (x - before.left) / before.width, partY = (y - before.top) / before.height;
    zoom = Math.min(MOST, Math.max(LEAST, to));
    svg.classList.toggle("is-zoomed", zoom > 1);
    svg.style.width = zoom > 1 ? `${fitWidth() * zoom}px` : "";
    svg.style.maxWidth = zoom > 1 ? "none" : "";
    viewport.style.maxHeight = zoom > 1 ? "var(--li-free, 82vh)" : "";
    const after = svg.getBoundingClientRect();
    viewport.scrollLeft += after.left + partX * after.width - x;
    viewport.scrollTop += after.top + partY * after.height - y;
  }

  const tools = page.querySelector('[data-part="zoom"]');
  tools.hidden = false;
  tools.addEventListener("click", (event) => {
    const kind = event.target.closest("button")?.dataset.zoom;
    if (kind) setZoom(kind === "fit" ? 1 : zoom * (kind === "in" ? 1.5 : 1 / 1.5));
  });
  viewport.addEventListener("wheel", (event) => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    setZoom(zoom * Math.exp(-event.deltaY / 300), event.clientX, event.clientY);
  }, { passive: false });

  // Knitting along asks for stitches that can be told apart at arm's length.
  svg.addEventListener("lintarsia:cell", (event) => {
    const cell = fitWidth() / natural * Number(svg.dataset.cellWidth);
    if (cell < event.detail.least) setZoom(event.detail.wanted / cell);
  });

  // Two fingers: the chart grows, not the page.
  let pinch = null;
  const gap = (touches) => Math.hypot(touches[0].clientX - touches[1].clientX, touches[0].clientY - touches[1].clientY);
  viewport.addEventListener("touchstart", (event) => {
    if (event.touches.length === 2) pinch = { gap: gap(event.touches), zoom };
  }, { passive: true });
  viewport.addEventListener("touchmove", (event) => {
    if (!pinch || event.touches.length !== 2) return;
    event.preventDefault();
    const [one, two] = event.touches;
    setZoom(pinch.zoom * gap(event.touches) / pinch.gap, (one.clientX + two.clientX) / 2, (one.clientY + two.clientY) / 2);
  }, { passive: false });
  viewport.addEventListener("touchend", (event) => { if (event.touches.length < 2) pinch = null; });

  // --- results ----------------------------------------------------------------------------------------------------
  // What is lit is far from its words: they stand below the chart as well, as long as it is lit.
  const note = document.createElement("div"), words = document.createElement("p"), off = document.createElement("button");
  note.className = "lit-note";
  note.hidden = true;
  off.type = "button";
  off.textContent = "×";
  off.setAttribute("aria-label", "No longer show this result in the chart");
  off.addEventListener("click", () => { light(null); frame(null); viewport.focus({ preventScroll: true }); });
  note.append(words, off);
  viewport.after(note);

  function tell(number) {
    const spot = number === null ? null : page.querySelector(`[data-mark="${CSS.escape(number)}"]`)?.closest("[id]");
    note.hidden = !spot;
    if (!spot) return;
    const [see, ...rest] = [...spot.childNodes].map((node) => node.cloneNode(true));
    const back = document.createElement("a");
    back.href = `#${spot.id}`;
    back.textContent = see.textContent;
    words.replaceChildren(back, ...rest);
  }

  // --- stitches that an address names -------------------------------------------------------------------------------
  const word = page.dataset.word;
  const shape = Object.fromEntries(["rows", "columns", "left", "top", "cellWidth", "cellHeight"].map((name) => [name, Number(svg.dataset[name])]));
  const sides = new Map([...svg.querySelectorAll("[data-row][data-side]")].map((group) => [Number(group.dataset.row), group.dataset.side]));
  const spotFrame = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  spotFrame.setAttribute("class", "spot-frame");
  spotFrame.setAttribute("rx", "3");

  /** `#row-14-s7-9` is stitches 7 to 9 of row 14, `#row-14-s7` is one: numbered as on the chart, whichever way it is worked. */
  const addressOf = ({ row, first, last }) => `#row-${row}-s${first}${last > first ? `-${last}` : ""}`;
  function addressed(hash) {
    const found = /^#row-([0-9]{1,9})-s([0-9]{1,9})(?:-([0-9]{1,9}))?$/.exec(hash);
    if (!found) return null;
    const [row, one, other] = [Number(found[1]), Number(found[2]), Number(found[3] ?? found[2])];
    return { row, first: Math.min(one, other), last: Math.max(one, other) };
  }

  function named({ row, first, last }) {
    const side = word === "row" && sides.get(row) ? ` (${sides.get(row)})` : "";
    return `${word} ${row}${side}, ${first === last ? `stitch ${first}` : `stitches ${first}–${last}`}`;
  }

  const exists = ({ row, first, last }) => row >= 1 && row <= shape.rows && first >= 1 && last <= shape.columns;

  /** Frame stitches in the chart and say which; null frames none. */
  function frame(spot) {
    spotFrame.remove();
    if (!spot) return;
    light(null);
    const say = document.createElement("b");
    note.hidden = false;
    if (!exists(spot)) {
      say.textContent = `There is no ${named(spot)}: the chart has ${shape.columns} stitches and ${shape.rows} ${word}s.`;
      words.replaceChildren(say);
      return;
    }
    say.textContent = named(spot);
    words.replaceChildren(say);
    const at = { x: shape.left + (shape.columns - spot.last) * shape.cellWidth - 2, y: shape.top + (shape.rows - spot.row) * shape.cellHeight - 2 };
    const size = { width: (spot.last - spot.first + 1) * shape.cellWidth + 4, height: shape.cellHeight + 4 };
    for (const [name, value] of Object.entries({ ...at, ...size })) spotFrame.setAttribute(name, value);
    svg.append(spotFrame);
    document.getElementById("show-chart").checked = true;
    spotFrame.scrollIntoView({ block: "center", inline: "center" });
  }

  // A finger or a button held down on a stitch: whoever has something to do with it listens for `lintarsia:held`.
  const HELD = 550; // ms
  function under(event) {
    const box = svg.getBoundingClientRect(), unit = svg.viewBox.baseVal.width / box.width;
    const column = Math.floor(((event.clientX - box.left) * unit - shape.left) / shape.cellWidth);
    const row = shape.rows - Math.floor(((event.clientY - box.top) * unit - shape.top) / shape.cellHeight);
    const spot = { row, first: shape.columns - column, last: shape.columns - column };
    return exists(spot) ? spot : null;
  }
  /** The click of the finger that is lifted, if one comes of it, is nobody's; the next one is. */
  function swallow() {
    const gone = (click) => { click.stopPropagation(); click.preventDefault(); };
    addEventListener("click", gone, true);
    const over = () => setTimeout(() => removeEventListener("click", gone, true));
    for (const end of ["pointerup", "pointercancel"]) addEventListener(end, over, { capture: true, once: true });
  }
  let holding = null;
  const letGo = () => { clearTimeout(holding?.timer); holding = null; };
  svg.addEventListener("pointerdown", (event) => {
    letGo();
    const spot = event.isPrimary && event.button === 0 ? under(event) : null;
    if (!spot) return;
    const tell = () => {
      const detail = { ...spot, address: addressOf(spot), name: named(spot), x: event.clientX, y: event.clientY };
      const heard = !svg.dispatchEvent(new CustomEvent("lintarsia:held", { detail, bubbles: true, cancelable: true }));
      if (heard) swallow();
    };
    holding = { x: event.clientX, y: event.clientY, timer: setTimeout(tell, HELD) };
  });
  svg.addEventListener("pointermove", (event) => { if (holding && Math.hypot(event.clientX - holding.x, event.clientY - holding.y) > 8) letGo(); });
  for (const end of ["pointerup", "pointercancel", "pointerleave"]) svg.addEventListener(end, letGo);

  let lit = null;
  function light(number) {
    lit?.classList.remove("is-lit");
    const mark = number === null ? null : document.getElementById(`c-mark-${number}`);
    tell(mark && number);
    lit = mark;
    if (!mark) return;
    spotFrame.remove();
    mark.classList.add("is-lit");
    document.getElementById("show-chart").checked = true;
    mark.scrollIntoView({ block: "center", inline: "center" });
  }
  page.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-mark]");
    if (!link) return;
    event.preventDefault();
    open(link.dataset.mark);
    viewport.focus({ preventScroll: true });
  });

  /** A result lit in the chart, with its address in the bar: for whoever is to be shown it. */
  function open(number) {
    light(number);
    const spot = page.querySelector(`[data-mark="${CSS.escape(number)}"]`)?.closest("[id]");
    if (spot) history.replaceState(null, "", `#${spot.id}`);
  }

  // A mark in the chart is its result, not a stitch to knit. Nothing else hears of such a tap.
  svg.addEventListener("click", (event) => {
    const mark = event.target.closest('[data-first]');
    if (!mark) return;
    event.stopImmediatePropagation();
    open(mark.id.slice("c-mark-".length));
  });
  page.addEventListener("keydown", (event) => { if (event.key === "Escape") { light(null); frame(null); } });

  // A link to a result opens whatever it is folded into.
  function unfold() {
    frame(addressed(location.hash));
    const name = decodeURIComponent(location.hash.slice(1));
    const target = name.startsWith("result-") && document.getElementById(name);
    for (let up = target; up; up = up.parentElement) if (up.localName === "details") up.open = true;
    if (target) {
      const see = target.querySelector("a[data-mark]");
      if (see) light(see.dataset.mark);
      target.scrollIntoView({ block: "center" });
    }
  }
  addEventListener("hashchange", unfold);
  unfold();
})();
