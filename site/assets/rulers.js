// What stays in sight around a chart that is moved: numbers of rows and stitches at its borders, a small map of the whole,
// what the stitch that was touched is; and the symbols of a large chart, of those stitches that are in sight.
(() => {
  "use strict";
  const { page, svg, shape, steps, names, view, phrase } = globalThis.lintarsia ?? {};
  if (!view) return;
  const around = page.querySelector('[data-part="window"]'), viewport = view.window;
  const make = (name, kind, parent = around) => {
    const element = document.createElement(name);
    element.className = kind;
    element.setAttribute("aria-hidden", "true");
    parent.append(element);
    return element;
  };
  const rulers = { left: make("div", "ruler at-left"), right: make("div", "ruler at-right"), foot: make("div", "ruler at-foot") };
  const READ = 8; // CSS pixels: the least size of the drawing's own numbers that can be read

  /** Show these numbers in a ruler: [where its middle is, the number], reusing what is there. */
  function write(ruler, along, numbers) {
    while (ruler.childElementCount > numbers.length) ruler.lastElementChild.remove();
    numbers.forEach(([at, number], index) => {
      const part = ruler.children[index] ?? make("span", "", ruler);
      if (part.textContent !== `${number}`) part.textContent = number;
      part.className = number % 10 ? "" : "ten";
      part.style[along] = `${at.toFixed(1)}px`;
    });
  }

  /** Every how many of them there is room for a number. */
  const step = (room, least) => [1, 2, 5, 10, 20, 50, 100, 200, 500].find((by) => room * by >= least) ?? 1000;

  const leftward = (row) => lintarsia.ofRow.get(row)?.[0].leftward ?? true;
  const both = steps.some((one) => !one.leftward) && steps.some((one) => one.leftward);

  // Everything below is reckoned from what was measured at once: measuring between two changes lays the page out again.
  function rows({ unit, inner, frame, mirrored, box, letters }) {
    const least = 15 * letters, high = shape.cellHeight * unit, by = both && high * 2 >= least ? 1 : step(high, least);
    const sides = { left: [], right: [] };
    const at = (row) => lintarsia.placeOf({ row, first: 1, last: 1 }, box).top + high / 2;
    const most = shape.rows - Math.floor((inner.top - at(shape.rows)) / high), lowest = shape.rows - Math.ceil((inner.bottom - at(shape.rows)) / high);
    for (let row = Math.max(1, lowest); row <= Math.min(shape.rows, most); row++) {
      const y = at(row);
      if (y < inner.top + 4 || y > inner.bottom - 2) continue;
      if (row % by) continue;
      // Where every row has its number it stands where the row begins; where only some have, at both borders.
      const border = leftward(row) !== mirrored ? "right" : "left";
      for (const side of by > 1 ? ["left", "right"] : [border]) sides[side].push([y - frame.top, row]);
    }
    write(rulers.left, "top", sides.left);
    write(rulers.right, "top", sides.right);
  }

  function stitches({ unit, inner, frame, box, letters }) {
    const wide = shape.cellWidth * unit, by = step(wide, letters * (shape.columns > 99 ? 26 : 19)), list = [];
    for (let stitch = 1; stitch <= shape.columns; stitch++) {
      if (stitch % by && (stitch > 1 || (by - 1) * wide < 19 * letters)) continue;
      const { left, right } = lintarsia.placeOf({ row: 1, first: stitch, last: stitch }, box), x = (left + right) / 2;
      if (x > inner.left && x < inner.right) list.push([x - frame.left, stitch]);
    }
    write(rulers.foot, "left", list);
  }

  // --- symbols of a large chart ---------------------------------------------------------------------------------------
  const whole = !svg.querySelector("[data-row][data-side]"); // its cells are drawn in one, without symbols
  const letters = document.createElementNS("http://www.w3.org/2000/svg", "g");
  lintarsia.letters = letters;
  const LEGIBLE = 7; // CSS pixels of a stitch's width
  let written = "";

  /** Those that are in sight: the rows and columns from one to another; null where stitches are too small for them. */
  function inSight({ unit, inner, mirrored, box }) {
    if (shape.cellWidth * unit < LEGIBLE) return null;
    const low = Math.max(1, shape.rows - Math.ceil((inner.bottom - box.top - shape.top * unit) / (shape.cellHeight * unit)));
    const high = Math.min(shape.rows, shape.rows - Math.floor((inner.top - box.top - shape.top * unit) / (shape.cellHeight * unit)));
    const from = (mirrored ? box.right - inner.right : inner.left - box.left) / unit - shape.left;
    const to = (mirrored ? box.right - inner.left : inner.right - box.left) / unit - shape.left;
    const first = Math.max(0, Math.floor(from / shape.cellWidth) - 4), last = Math.min(shape.columns - 1, Math.ceil(to / shape.cellWidth) + 4);
    return { low, high, first, last, mirrored, name: `${low} ${high} ${first >> 2} ${last >> 2} ${mirrored}` };
  }

  /** Hundreds of letters: first the chart stands where it is to stand, then they come. */
  function symbols(now) {
    if ((inSight(now)?.name ?? "") !== written) lintarsia.later(writeSymbols);
  }

  function writeSymbols() {
    const seen = page.querySelector("#show-chart").checked ? inSight(measured()) : null;
    written = seen?.name ?? "";
    letters.replaceChildren();
    if (!seen) return letters.remove();
    const { low, high, first, last, mirrored } = seen;
    const size = Math.min(shape.cellWidth * 0.5, shape.cellHeight * 0.66);
    letters.setAttribute("font-size", size);
    letters.setAttribute("text-anchor", "middle");
    letters.setAttribute("class", "written-symbols");
    for (let row = low; row <= high; row++) {
      const y = shape.top + (shape.rows - row + 0.5) * shape.cellHeight + size * 0.355;
      for (const [colour, columns] of byColour(row, first, last)) {
        const text = document.createElementNS("http://www.w3.org/2000/svg", "text");
        const middles = columns.map((column) => (mirrored ? -1 : 1) * (shape.left + (column + 0.5) * shape.cellWidth));
        text.setAttribute("x", middles.join(" "));
        if (mirrored) text.setAttribute("transform", "scale(-1 1)");
        text.setAttribute("y", y);
        text.setAttribute("fill", colour.ink);
        text.textContent = colour.symbol.repeat(columns.length);
        letters.append(text);
      }
    }
    if (!letters.isConnected) svg.insertBefore(letters, svg.querySelector('[data-part="row-numbers"]')?.parentNode ?? null);
  }

  /** The columns of a row from `first` to `last`, by the colour that they have. */
  function byColour(row, first, last) {
    const found = new Map();
    for (const one of lintarsia.ofRow.get(row) ?? []) {
      const columns = lintarsia.columnsOf(one);
      let at = 0;
      for (const { stitches, yarn: { colour } } of one.runs) for (const end = at + stitches; at < end; at++) {
        if (columns[at] < first || columns[at] > last) continue;
        if (found.has(colour)) found.get(colour).push(columns[at]); else found.set(colour, [columns[at]]);
      }
    }
    return found;
  }

  // --- a small map of the whole -----------------------------------------------------------------------------------------
  let map = null, here = null;
  const MOST = 92, LEAST = 24, FOOT = 28; // CSS pixels: its longer side, its shorter, and the numbers below it
  const ratio = shape.rows * shape.cellHeight / (shape.columns * shape.cellWidth);
  const flat = Math.min(ratio, 1 / ratio) * MOST < LEAST; // a strip, which tells no more than the numbers at the borders
  const WELL = 13; // CSS pixels: stitches so wide are told apart where the whole chart is in sight
  const easilyWhole = ({ inner, fit }) => fit / view.natural * shape.cellWidth >= WELL && fit * svg.viewBox.baseVal.height / view.natural <= inner.bottom - inner.top;

  /** Put the map at the head or the foot of the window, wherever it hides nothing of the row or the stitches that one is
   * at; false where it would at both. */
  function settle({ frame, at }) {
    const high = Math.min(MOST, MOST * ratio) + 4;
    const free = (top) => !at || at.bottom < top || at.top > top + high;
    const head = free(frame.top + 8), foot = !head && free(frame.bottom - FOOT - high);
    map.classList.toggle("at-foot", foot);
    return head || foot;
  }
  function mapped(now) {
    const { inner, box } = now;
    const hidden = box.width > inner.right - inner.left + 8 || box.height > inner.bottom - inner.top + 8;
    if (!hidden || view.zoom <= 1.001 || flat || easilyWhole(now)) { if (map) map.hidden = true; return; }
    if (!map) return lintarsia.later(draft);
    map.hidden = !settle(now);
    const share = (from, to, low, size) => [Math.max(0, (from - low) / size), Math.min(1, (to - low) / size)];
    const [left, right] = share(inner.left, inner.right, box.left, box.width), [top, bottom] = share(inner.top, inner.bottom, box.top, box.height);
    Object.assign(here.style, { left: `${100 * left}%`, right: `${100 * (1 - right)}%`, top: `${100 * top}%`, bottom: `${100 * (1 - bottom)}%` });
  }

  function draft() {
    map ??= drawMap();
    view.soon();
  }

  function drawMap() {
    const made = make("div", "map"), canvas = make("canvas", "", made);
    const wide = ratio > 1 ? MOST / ratio : MOST;
    Object.assign(made.style, { width: `${wide}px`, height: `${wide * ratio}px` });
    canvas.width = shape.columns;
    canvas.height = shape.rows;
    const ink = canvas.getContext("2d");
    for (const one of steps) {
      let at = 0;
      const columns = lintarsia.columnsOf(one);
      for (const { stitches, yarn } of one.runs) {
        const [first, last] = [columns[at], columns[at + stitches - 1]].sort((low, high) => low - high);
        ink.fillStyle = yarn.colour.shade;
        if (last - first < stitches) ink.fillRect(first, shape.rows - one.row, stitches, 1);
        else for (const column of columns.slice(at, at + stitches)) ink.fillRect(column, shape.rows - one.row, 1, 1); // around a gap
        at += stitches;
      }
    }
    here = make("div", "here", made);
    made.classList.toggle("mirrored", lintarsia.mirrored());
    const go = (event) => {
      const place = made.getBoundingClientRect(), box = svg.getBoundingClientRect(), seen = view.inner();
      viewport.scrollLeft += box.left + (event.clientX - place.left) / place.width * box.width - (seen.left + seen.right) / 2;
      viewport.scrollTop += box.top + (event.clientY - place.top) / place.height * box.height - (seen.top + seen.bottom) / 2;
    };
    made.addEventListener("pointerdown", (event) => { made.setPointerCapture(event.pointerId); event.preventDefault(); go(event); });
    made.addEventListener("pointermove", (event) => { if (event.buttons) go(event); });
    return made;
  }

  // --- what is touched -----------------------------------------------------------------------------------------------
  const readout = document.createElement("p");
  readout.className = "readout";
  readout.hidden = true;
  around.append(readout);

  /** The one yarn of all these stitches, null where they have none, undefined where they have several. */
  function yarnOf({ row, first, last }) {
    const yarns = new Set(Array.from({ length: last - first + 1 }, (_, at) => lintarsia.stitchAt(row, first + at)?.yarn ?? null));
    return yarns.size === 1 ? [...yarns][0] : undefined;
  }

  /** Say which stitch it is: `row 14 WS, stitch 7, Plum, F2`; of several, the yarn only where it is the same in all. */
  let told = null;
  lintarsia.tell = (spot) => {
    told = spot;
    readout.hidden = !spot;
    if (!spot) return;
    const yarn = yarnOf(spot);
    const side = lintarsia.sideShort(spot.row);
    const parts = [`${names.word} ${spot.row}${side && ` ${side}`}`, lintarsia.stitchesWords(spot)];
    readout.replaceChildren(parts.join(", "));
    if (yarn) for (const name of [yarn.colour.name, yarn.id]) {
      const part = document.createElement("bdi");
      part.textContent = name;
      readout.append(", ", part);
    } else if (yarn === null) readout.append(`, ${phrase("no stitch")}`);
  };
  lintarsia.tell(lintarsia.toTell);
  // On the next row the stitch of the last is no longer where one is.
  page.querySelector('[data-part="card"]')?.addEventListener("lintarsia:row", ({ detail }) => { if (told && told.row !== detail.row) lintarsia.tell(null); });
  svg.addEventListener("pointermove", (event) => { if (event.pointerType === "mouse" && !event.buttons) lintarsia.tell(lintarsia.under(event)); });
  // Before others hear of the tap, and keep it to themselves.
  svg.addEventListener("click", (event) => { const spot = event.target.closest("[data-said]") ? null : lintarsia.under(event); if (spot) lintarsia.tell(spot); }, true);

  function measured() {
    const at = lintarsia.frames.find((one) => one.isConnected)?.getBoundingClientRect();
    const letters = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16; // how much larger than usual
    return { letters, unit: view.scale, fit: view.fit, inner: view.inner(), frame: around.getBoundingClientRect(), box: svg.getBoundingClientRect(), at, mirrored: lintarsia.mirrored() };
  }

  let wasRuled = whole; // a large chart's page has it so from the first
  view.drawn = () => {
    const unit = view.scale, paths = !page.querySelector("#show-chart").checked;
    const size = Math.min(12.5, shape.cellHeight * (both ? 1.5 : 1) * 0.8);
    const ruled = !paths && (view.zoom > 1.001 || size * unit < READ || viewport.scrollHeight > viewport.clientHeight + 8);
    if (around.classList.toggle("is-ruled", ruled) !== wasRuled) {
      wasRuled = ruled;
      view.soon();
      page.dispatchEvent(new CustomEvent("lintarsia:moved"));
    }
    const now = measured();
    if (!now.frame.width) return;
    if (ruled) { rows(now); stitches(now); }
    if (whole && !paths) symbols(now);
    mapped(now);
  };
  page.addEventListener("change", () => view.soon());
  page.addEventListener("lintarsia:hands", () => { if (map) map.classList.toggle("mirrored", lintarsia.mirrored()); view.soon(); });
  view.soon();
})();
