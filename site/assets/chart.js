// What is pointed at in a chart: stitches that an address names, results that light up theirs, stitches that are held.
(() => {
  "use strict";
  const { page, svg, shape, names, sideShort, view, addressed, addressOf, exists, stitchesWords, phrase, counted } = globalThis.lintarsia ?? {};
  if (!view) return;
  const viewport = view.window;

  // What is lit is far from its words: they stand below the chart as well, as long as it is lit.
  const note = document.createElement("div"), words = document.createElement("p"), off = document.createElement("button");
  note.className = "lit-note";
  note.hidden = true;
  off.type = "button";
  off.textContent = "×";
  off.setAttribute("aria-label", phrase("No longer show this in the chart"));
  off.addEventListener("click", () => { clear(); viewport.focus({ preventScroll: true }); });
  note.append(words, off);
  /** Put in when it is first asked for: whatever comes beside the drawing has all of that styled again. */
  const around = page.querySelector('[data-part="window"]');
  const noted = () => { if (!note.isConnected) around.after(note); };

  let lit = null;
  const spotFrame = lintarsia.rect("spot-frame");
  lintarsia.frames.push(spotFrame);
  function clear() {
    lit?.classList.remove("is-lit");
    lit = null;
    spotFrame.remove();
    note.hidden = true;
  }

  /** Bring it into the middle of the chart's window, and that to where it is seen. */
  function show(spot) {
    document.getElementById("show-chart").checked = true;
    const seen = view.inner(), place = lintarsia.placeOf(spot);
    if (place.right > seen.right || place.left < seen.left || place.bottom > seen.bottom || place.top < seen.top) {
      viewport.scrollLeft += (place.left + place.right) / 2 - (seen.left + seen.right) / 2;
      viewport.scrollTop += (place.top + place.bottom) / 2 - (seen.top + seen.bottom) / 2;
    }
    const now = lintarsia.placeOf(spot);
    if (now.top < 40 || now.bottom > innerHeight - 120) scrollBy({ top: (now.top + now.bottom) / 2 - innerHeight / 2, behavior: "instant" });
    view.soon();
  }

  // --- stitches that an address names -------------------------------------------------------------------------------
  const named = ({ row, first, last }) => `${names.word} ${row}${sideShort(row) && ` (${sideShort(row)})`}, ${stitchesWords({ first, last })}`;

  /** Frame stitches in the chart and say which. */
  function frame(spot) {
    clear();
    noted();
    const say = document.createElement("b");
    note.hidden = false;
    words.replaceChildren(say);
    if (!exists(spot)) {
      lintarsia.tell(null);
      say.textContent = phrase("There is no {place}: the chart has {stitches} and {rows}.", { place: named(spot), stitches: counted(shape.columns, "{n} stitch", "{n} stitches"), rows: lintarsia.rowCount(shape.rows) });
      return;
    }
    say.textContent = named(spot);
    const knit = document.createElement("a");
    knit.href = `#row-${spot.row}`;
    knit.textContent = phrase("Knit {word} {row}", { ...names, row: spot.row });
    words.append(knit);
    lintarsia.lay(spotFrame, spot, 2);
    spotFrame.setAttribute("rx", "3");
    lintarsia.tell(spot);
    show(spot);
  }

  // --- a stitch that is held down ------------------------------------------------------------------------------------
  // Whoever has something to do with it listens for `lintarsia:held`, and prevents its default if it did.
  const HELD = 550; // ms
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
    const spot = event.isPrimary && event.button === 0 ? lintarsia.under(event) : null;
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

  // --- results ----------------------------------------------------------------------------------------------------
  const spotOf = (number) => page.querySelector(`[id^="result-"] [data-mark="${CSS.escape(number)}"]`)?.closest("[id]");

  function tell(number) {
    const spot = spotOf(number);
    noted();
    note.hidden = !spot;
    if (!spot) return;
    const [see, ...rest] = [...spot.childNodes].map((node) => node.cloneNode(true));
    const back = document.createElement("a");
    back.href = `#${spot.id}`;
    back.textContent = see.textContent;
    words.replaceChildren(back, ...rest);
  }

  function light(number) {
    clear();
    const mark = document.getElementById(`c-mark-${number}`);
    if (!mark) return;
    tell(number);
    lit = mark;
    mark.classList.add("is-lit");
    show({ row: Number(mark.dataset.row), first: Number(mark.dataset.first), last: Number(mark.dataset.last) });
  }

  /** A result lit in the chart, with its address in the bar: for whoever is to be shown it. */
  function open(number) {
    light(number);
    const spot = spotOf(number);
    if (spot) history.replaceState(null, "", `#${spot.id}`);
  }
  page.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-mark]");
    if (!link) return;
    event.preventDefault();
    open(link.dataset.mark);
    viewport.focus({ preventScroll: true });
  });

  // A mark in the chart is its result, not a stitch to knit. Nothing else hears of such a tap.
  svg.addEventListener("click", (event) => {
    if (!event.target.closest("[data-first]")) return;
    const wide = (mark) => mark.dataset.last - mark.dataset.first; // a stitch's own mark may lie under that of its row
    const under = document.elementsFromPoint(event.clientX, event.clientY).map((part) => part.closest("[data-first]"));
    const [mark] = under.filter((part) => svg.contains(part)).sort((one, other) => wide(one) - wide(other));
    if (!mark) return;
    event.stopImmediatePropagation();
    open(mark.id.slice("c-mark-".length));
  });
  page.addEventListener("keydown", (event) => { if (event.key === "Escape") clear(); });

  // A link to a result opens whatever it is folded into.
  function follow() {
    const spot = addressed(location.hash);
    if (spot) return frame(spot);
    const name = decodeURIComponent(location.hash.slice(1));
    const target = name.startsWith("result-") && document.getElementById(name);
    for (let up = target; up; up = up.parentElement) if (up.localName === "details") up.open = true;
    if (target) {
      const see = target.querySelector("a[data-mark]");
      if (see) light(see.dataset.mark);
      target.scrollIntoView({ block: "center" });
    }
  }
  addEventListener("hashchange", follow);
  follow();
  const first = addressed(location.hash);
  if (first && exists(first)) requestAnimationFrame(() => show(first)); // the scripts behind this one move the chart down
})();
