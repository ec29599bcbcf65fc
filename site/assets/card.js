// The card of the row that is being knitted: what it tells, in which order, and aloud. Where to go next is knit.js's.
(() => {
  "use strict";
  const { page, names, steps, phrase, counted, capital, halfWords } = globalThis.lintarsia ?? {};
  const card = page && page.querySelector('[data-part="card"]');
  if (!card) return;

  const body = card.querySelector('[data-part="card-body"]');
  const title = card.querySelector('[data-part="card-title"]');
  const place = card.querySelector('[data-part="card-place"]');
  const say = page.querySelector('[data-part="say"]');
  const back = card.querySelector('[data-knit="back"]');
  const tick = card.querySelector('[data-knit="tick"]');
  const next = card.querySelector('[data-knit="next"]');
  const fold = card.querySelector('[data-knit="fold"]');
  const MANY = 8; // runs or yarns that can be told with their names before a card is full; folding.py's LONG
  const CLOSE = 5; // yarns whose holders can be named on a phone
  const SHORT = 6; // letters of a word that find room below the narrowest yarn of a line-up
  let scrolled = false;
  let parts = []; // of the card that is shown: each run, with the units that it stands for
  let bare = []; // its drawings that are still to come, each with the name of what it is a use of

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
  const listOf = (yarns) => yarns.map((yarn) => yarn.id).join(", ");
  const times = (number) => (number === 2 ? phrase("twice") : phrase("{n} times", { n: number }));
  const over = (again) => phrase("{stitches}, {times}:", { stitches: counted(again.wide, "{n} stitch", "{n} stitches"), times: times(again.times) });
  const mirrored = () => lintarsia.mirrored();

  // --- what is told of a row, top to bottom -------------------------------------------------------------------------
  function fillCard({ step, first, last, other }) {
    bare = [];
    title.replaceChildren(`${names.Word} ${step.row}`);
    if (step.side) title.append(" ", make("small", step.side));
    if (step.half) title.append(" ", make("small", halfWords(step.half), "half"));
    const reading = make("small", `${phrase("chart")} `, "reading");
    reading.append(make("span", step.leftward !== mirrored() ? "←" : "→", "arrow"));
    reading.setAttribute("aria-hidden", "true");
    title.append(" ", reading);
    body.classList.toggle("many", step.lineUp.length > MANY);
    body.classList.toggle("close", step.lineUp.length > CLOSE);
    body.replaceChildren(hanging(step), working(step), ...found(step));
    if (scrolled) body.scrollTop = 0;
    scrolled = false;
    back.disabled = first;
    next.textContent = last ? phrase("Finished") : other ? phrase("Other side ›") : phrase("Next {word} ›", names);
    say.textContent = sentence(step);
  }

  /** The yarns as they hang before the knitter, whichever side faces her: the first to be used at the needle's tip. */
  function hanging(step) {
    const part = make("div", undefined, "hanging");
    const crossing = crossed(step);
    if (crossing) part.append(make("p", phrase("Before you begin, {crossing}.", { crossing }), "before"));
    const facing = step.side ? (lintarsia.side(step.row) === "RS" ? phrase("Right side facing you") : phrase("Wrong side facing you")) : phrase("As they hang before you");
    const caption = make("p", `${facing} · ${mirrored() ? phrase("first at the left") : phrase("first at the right")}`, "caption");
    caption.id = "knit-hang";
    const lineUp = make("div", undefined, "line-up"), hangs = make("ol", undefined, "hangs"), yarns = step.lineUp;
    lineUp.setAttribute("role", "group");
    lineUp.setAttribute("aria-labelledby", "knit-hang");
    hangs.append(...yarns.map((yarn) => hung(step, yarn)));
    lineUp.append(hangs);
    if (yarns.length) part.append(caption, lineUp);
    const aside = [];
    if (step.waiting.length) aside.push(phrase("Resting: {yarns}", { yarns: listOf(step.waiting) }));
    if (step.beyond.length) aside.push(phrase("Left hanging on the other side: {yarns}", { yarns: listOf(step.beyond) }));
    if (aside.length) part.append(make("p", `${aside.join(". ")} (${step.hangs ? phrase("{n} of {all} hanging", { n: yarns.length, all: step.hangs }) : yarns.length})`, "rests"));
    return part;
  }

  function hung(step, yarn) {
    const joined = step.joins.includes(yarn), ends = step.lasts.includes(yarn);
    const long = yarn.colour.name.split(/[\s-]+/).some((word) => word.length > SHORT);
    const item = make("li", undefined, [joined && "new", ends && "last", long && "long"].filter(Boolean).join(" "));
    const drawing = draw("svg", { class: "hang", viewBox: "0 0 52 92", "aria-hidden": "true" });
    for (const [name, tone] of [["--yarn", "shade"], ["--yarn-edge", "edge"], ["--yarn-gleam", "gleam"]]) drawing.style.setProperty(name, yarn.colour[tone]);
    bare.push([drawing, `#hang-${yarn.hang}`]);
    item.append(drawing, make("b", yarn.id), " ", make("bdi", yarn.colour.name, "clamped"), " ", make("span", yarn.holder, "holder"), " ");
    if (joined) item.append(make("i", phrase("new")), " ");
    if (ends) item.append(make("i", phrase("last {word}", names)), " ");
    return item;
  }

  /** What yarns hang from, which is many small strokes, and the symbols of colours: with the card that is shown already; the
   * first one is there before them, with the colours alone. */
  function dress() {
    for (const [drawing, href] of bare.splice(0)) {
      drawing.append(draw("use", { href }));
      drawing.style.background = "";
    }
  }

  /** A run as a button: at it is where the knitter is. */
  function run({ stitches, yarn }, units) {
    const part = make("button", undefined, "run"), key = draw("svg", { class: "key", viewBox: "0 0 24 20", "aria-hidden": "true" });
    part.type = "button";
    key.style.background = yarn.colour.shade;
    bare.push([key, `#key-${lintarsia.colours.indexOf(yarn.colour)}`]);
    part.append(make("b", stitches), key, make("bdi", yarn.colour.name, "clamped"), " ", make("em", yarn.id));
    part.dataset.units = units.join(" ");
    parts.push(part);
    return part;
  }

  function working(step) {
    const part = make("div", undefined, "work"), runs = make("div", undefined, "runs"), again = step.fold;
    parts = [];
    if (step.shaped) part.append(make("p", step.shaped, "shaped"));
    const show = (list, unitsOf) => list.flatMap((one, at) => [run(one, unitsOf(at)), " "]);
    if (again) {
      part.append(make("p", over(again), "again"));
      const long = again.runs.length;
      runs.append(...show(again.runs, (at) => Array.from({ length: again.times }, (_, turn) => turn * long + at)));
      if (again.rest.length) runs.append(make("span", phrase("then"), "then"), " ", ...show(again.rest, (at) => [again.times * long + at]));
    } else runs.append(...(step.runs.length || step.shaped ? show(step.runs, (at) => [at]) : [phrase("no stitches")]));
    runs.classList.toggle("brief", parts.length > MANY);
    const colours = new Set(step.runs.map((one) => one.yarn.colour)), yarns = new Set(step.runs.map((one) => one.yarn));
    runs.classList.toggle("one-each", colours.size === yarns.size); // a colour then says which yarn
    part.append(runs);
    return part;
  }

  /** Whether a line is of stitches that lie beyond an opening, with the side that is not worked now. */
  function elsewhere(line, { half, cells }) {
    const { first, last } = line.querySelector("[data-first]")?.dataset ?? {};
    const [right, left] = (line.dataset.ofStitches?.split(" ") ?? [first, last]).map((stitch) => lintarsia.shape.columns - stitch); // columns
    return half === "left" ? left >= cells[1] : half === "right" && right < cells[0];
  }

  /** What was found in the row, what the designer accepted and why, what is embroidered over it afterwards, and what test
   * knitters said. */
  function found(step) {
    const told = [...page.querySelectorAll("[data-of-row]")].filter((line) => Number(line.dataset.ofRow) === step.row && !elsewhere(line, step));
    const lines = told.map((line) => {
      const item = make("li"), level = line.closest("[data-level]")?.dataset.level;
      if (line.cells) { // of the table of duplicate stitch: box, row, where, colour, how many
        item.append(make("b", `${phrase("Duplicate stitch")}: `), `${line.cells[3].textContent.trim()}, ${line.cells[2].textContent}`);
        return item;
      }
      if (line.localName === "li") { // said: kind and place, the words, what came of it and who
        const [head, ...said] = line.querySelectorAll("p");
        item.append(make("b", `${capital(head.querySelector("span").textContent)}: `), said.map((one) => one.textContent).join(" · "));
        return item;
      }
      if (level) item.append(make("b", `${capital({ error: phrase("error"), warning: phrase("warning"), note: phrase("note") }[level])} `));
      item.append(...[...line.childNodes].map((node) => node.cloneNode(true)));
      return item;
    });
    if (!lines.length) return [];
    const part = make("div", undefined, "of-row"), list = make("ul");
    list.append(...lines);
    part.append(make("p", phrase("Of this {word}", names), "caption"), list);
    return [part];
  }

  const crossed = ({ crossings }) => crossings && counted(crossings, "{n} pair of yarns has to cross", "{n} pairs of yarns have to cross");

  function sentence(step) {
    const list = (runs) => runs.map(({ stitches, yarn }) => `${stitches} ${yarn.colour.name}`).join(", "), again = step.fold;
    const stitches = again ? `${over(again)} ${list(again.runs)}${again.rest.length ? phrase("; then {stitches}", { stitches: list(again.rest) }) : ""}` : list(step.runs) || phrase("no stitches");
    const named = (yarns) => yarns.filter((yarn) => step.lineUp.includes(yarn)).map((yarn) => `${yarn.id} ${yarn.colour.name}`).join(", ");
    const joins = named(step.joins), lasts = named(step.lasts), crossing = crossed(step);
    const way = step.leftward !== mirrored() ? phrase("right to left on the chart") : phrase("left to right on the chart");
    return [
      `${[`${names.word} ${step.row}`, step.side, halfWords(step.half), way, step.shaped].filter(Boolean).join(", ")}: ${stitches}.`,
      crossing && phrase("Before you begin, {crossing}.", { crossing }),
      joins && phrase("Join {yarns}.", { yarns: joins }),
      lasts && phrase("Last {word} of {yarns}.", { ...names, yarns: lasts }),
    ].filter(Boolean).join(" ");
  }

  // --- the place within a row ------------------------------------------------------------------------------------------
  function mark({ step, unit }) {
    const units = step.units, here = units[unit], again = step.fold;
    for (const part of parts) {
      const own = part.dataset.units.split(" ").map(Number);
      part.classList.toggle("is-done", own.every((one) => one < unit) || Boolean(here && again && own.length > 1 && here.turn < again.times && own[0] < here.of));
      const current = own.includes(unit);
      part.classList.toggle("is-here", current);
      if (current) part.setAttribute("aria-current", "step"); else part.removeAttribute("aria-current");
    }
    const where = phrase("{word} {row} of {rows}", { ...names, row: step.row, rows: lintarsia.shape.rows });
    const run = (n, all) => phrase("run {n} of {all}", { n, all });
    const within = !here ? (units.length > 1 ? phrase("all runs ticked off") : "")
      : again && here.turn < again.times ? `${phrase("repeat {n} of {all}", { n: here.turn + 1, all: again.times })}, ${run(here.of + 1, again.runs.length)}`
      : units.length > 1 ? run(again ? here.of + 1 : unit + 1, again ? again.rest.length : units.length) : "";
    place.textContent = [within, where].filter(Boolean).join(", ");
    tick.hidden = units.length < 2;
    tick.disabled = !here;
    if (unit) parts.find((part) => part.hasAttribute("aria-current"))?.scrollIntoView({ block: "nearest", behavior: "instant" });
  }

  /** What does not fit can be scrolled to, by the keyboard too; what is worked is not what one has to scroll to. */
  function reach() {
    body.classList.remove("is-short");
    const first = parts[0]?.getBoundingClientRect();
    body.classList.toggle("is-short", Boolean(first?.height) && first.bottom - body.getBoundingClientRect().top + body.scrollTop > body.clientHeight + 1);
    if (body.scrollHeight > body.clientHeight + 1) body.tabIndex = 0;
    else body.removeAttribute("tabindex");
  }

  body.addEventListener("scroll", () => { scrolled = true; }, { passive: true });

  let shown = null;
  card.addEventListener("lintarsia:row", (event) => {
    const fresh = !shown;
    shown = event.detail;
    fillCard(shown);
    if (fresh) lintarsia.later(dress); else dress();
    mark(shown);
    reach();
  });
  card.addEventListener("lintarsia:unit", (event) => { Object.assign(shown, event.detail); mark(shown); });
  page.addEventListener("lintarsia:hands", () => { if (shown && !card.hidden) { fillCard(shown); dress(); mark(shown); reach(); } });
  body.addEventListener("click", (event) => {
    const units = event.target.closest("button")?.dataset.units?.split(" ").map(Number);
    if (!units) return;
    const turn = shown.step.units[shown.unit]?.turn ?? 0; // of a stretch that is repeated, the repeat that one is in
    const to = units.length > 1 ? units[Math.min(turn, units.length - 1)] : units[0];
    card.dispatchEvent(new CustomEvent("lintarsia:here", { detail: to }));
  });
  addEventListener("resize", reach);
  fold.addEventListener("click", () => {
    fold.setAttribute("aria-expanded", String(!card.classList.toggle("is-folded")));
    reach();
  });
})();
