// The card of the row that is being knitted: what it tells, in which order, and aloud. Where to go next is knit.js's.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const svg = page && page.querySelector('[data-part="viewport"] svg[data-rows]');
  const card = page && page.querySelector('[data-part="card"]');
  if (!svg || !card) return;

  const word = page.dataset.word;
  const body = card.querySelector('[data-part="card-body"]');
  const title = card.querySelector('[data-part="card-title"]');
  const say = page.querySelector('[data-part="say"]');
  const back = card.querySelector('[data-knit="back"]');
  const next = card.querySelector('[data-knit="next"]');
  const fold = card.querySelector('[data-knit="fold"]');
  let lineUp = null; // of the row that the card shows
  const supplies = new Map([...page.querySelectorAll("[data-supply]")].map((tr) => [tr.dataset.supply, tr.dataset]));

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
  function read(name) {
    const line = document.getElementById(`row-${name}`);
    const told = (name) => line.querySelector(`[data-told="${name}"]`)?.textContent ?? "";
    return {
      line,
      row: Number.parseInt(name, 10),
      side: told("side"),
      half: told("half"),
      count: told("count"),
      leftward: line.dataset.way === "left",
      shaped: told("shaped"),
      resting: told("rests"),
      crossings: Number.parseInt(told("crossings"), 10) || 0,
      runs: [...line.querySelectorAll('[data-told="runs"] > span')].map((part) => ({
        part, stitches: Number(part.querySelector("b").textContent), name: part.querySelector("span").textContent, yarn: part.querySelector("em").textContent,
      })),
      yarns: [...line.querySelectorAll('[data-told="yarns"] > li')].map((li) => ({
        id: li.querySelector("b").textContent, hang: li.dataset.hang, kind: li.dataset.when ?? "", notes: [...li.querySelectorAll("i")].map((i) => i.textContent),
      })),
    };
  }

  const LONG = 8; // runs that can be told with their names before a card is full; rowview.py's LONG

  /** A long row that is one stretch of stitches over and over, as the list says by `data-again`: how wide, how often. */
  function repeated(line, runs) {
    const [wide, times] = (line.dataset.again ?? "").split(" ").map(Number);
    if (!times) return null;
    return { wide, times: times === 2 ? "twice" : `${times} times`, runs: stretch(runs, 0, wide), rest: stretch(runs, wide * times, Infinity) };
  }

  /** The runs between two stitches, counted in working order from 0; runs are cut where they reach beyond. */
  function stretch(runs, from, to) {
    let at = 0;
    return runs.flatMap((run) => {
      const first = Math.max(at, from), last = Math.min(at += run.stitches, to);
      return last > first ? [{ ...run, stitches: last - first }] : [];
    });
  }

  // --- the card ---------------------------------------------------------------------------------------------------
  /** `name` is the row, or a side's part of it; `other`: the next step is the other side of the same row. */
  function fillCard({ name, first, last, other }) {
    const told = read(name), again = repeated(told.line, told.runs);
    title.replaceChildren(`${word[0].toUpperCase()}${word.slice(1)} ${told.row}`);
    if (told.side) title.append(" ", make("small", told.side));
    if (told.half) title.append(" ", make("small", told.half, "half"));
    const reading = make("small", "chart ", "reading");
    reading.append(make("span", told.leftward ? "←" : "→", "arrow"));
    reading.setAttribute("aria-hidden", "true");
    title.append(" ", reading);
    body.classList.toggle("many", told.yarns.length > LONG);
    body.replaceChildren(hanging(told), working(told, again));
    body.scrollTop = 0;
    back.disabled = first;
    next.textContent = last ? "Finished" : other ? "Other side ›" : `Next ${word} ›`;
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
    lineUp = make("div", undefined, "line-up");
    lineUp.setAttribute("role", "group");
    lineUp.setAttribute("aria-labelledby", "knit-hang");
    const hangs = make("ol", undefined, "hangs");
    hangs.append(...told.yarns.map(hung));
    lineUp.append(hangs);
    if (told.yarns.length) part.append(caption, lineUp); else lineUp = null;
    if (told.resting) part.append(make("p", `${told.resting} (${told.count.trim()})`, "rests"));
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
    } else runs.append(...(told.runs.length || told.shaped ? show(told.runs) : ["no stitches"]));
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
    return `${[`${word} ${told.row}`, told.side, told.half, `${told.leftward ? "right to left" : "left to right"} on the chart`, told.shaped].filter(Boolean).join(", ")}: ${stitches}.`
      + (crossing ? ` Before you begin, ${crossing}.` : "") + (joins ? ` Join ${joins}.` : "") + (lasts ? ` Last ${word} of ${lasts}.` : "");
  }

  /** What does not fit can be scrolled to, by the keyboard too; the line-up shows the end where the row begins. */
  function reach() {
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

  card.addEventListener("lintarsia:row", (event) => { fillCard(event.detail); reach(); });
  addEventListener("resize", reach);
  fold.addEventListener("click", () => {
    fold.setAttribute("aria-expanded", String(!card.classList.toggle("is-folded")));
    reach();
  });
})();
