// The rows of a chart, from the data in its page; the other scripts of the page ask here. rowdata.py says what is in it.
Object.assign(globalThis.lintarsia, (() => {
  "use strict";
  const { phrase, counted } = globalThis.lintarsia;
  const page = document.querySelector('[data-page="chart"]');
  const svg = page && page.querySelector('[data-part="viewport"] svg[data-rows]');
  const data = page && page.querySelector('[data-part="rows"]');
  if (!svg || !data) return { page: null };

  const told = JSON.parse(data.textContent);
  const shape = Object.fromEntries(["rows", "columns", "left", "top", "cellWidth", "cellHeight"].map((name) => [name, Number(svg.dataset[name])]));
  const colours = told.colours.map(([symbol, name, shade, ink, edge, gleam]) => ({ symbol, name, shade, ink, edge, gleam }));
  const yarns = told.yarns.map(([id, colour, hang]) => ({ id, colour: colours[colour], hang, holder: told.holders[hang] }));
  const pick = (numbers) => (numbers ?? []).map((number) => yarns[number]);

  /** The columns of a step's stitches, in working order: all of its row, or of its side, that have a stitch. */
  function columnsOf(step) {
    if (step.columns) return step.columns;
    const [first, end] = step.cells ?? [0, shape.columns], gaps = step.own.g ?? [], found = [];
    for (let column = first, gap = 0; column < end; column++) {
      while (gap < gaps.length && gaps[gap + 1] < column) gap += 2;
      if (gap >= gaps.length || column < gaps[gap]) found.push(column);
    }
    return step.columns = step.leftward ? found.reverse() : found;
  }

  /** The runs between two stitches, counted in working order from 0; runs are cut where they reach beyond. */
  function between(runs, from, to) {
    let at = 0;
    return runs.flatMap((run) => {
      const first = Math.max(at, from), last = Math.min(at += run.stitches, to);
      return last > first ? [{ ...run, stitches: last - first }] : [];
    });
  }

  class Step {
    constructor(own, at) {
      this.at = at; // counted from 1
      this.name = own.n ?? `${at}`;
      this.row = Number.parseInt(this.name, 10);
      this.half = own.h ?? "";
      this.cells = own.c;
      this.shaped = own.s ?? "";
      this.side = told.sides[this.row % 2];
      this.leftward = told.ways[this.row % 2] === "left";
      this.again = own.a;
      this.own = own;
    }

    get runs() {
      return this.kept ??= Array.from({ length: this.own.r.length / 2 }, (_, at) => ({ stitches: this.own.r[2 * at], yarn: yarns[this.own.r[2 * at + 1]] }));
    }

    /** The yarns at work in the order of use. */
    get lineUp() { return [...new Set(this.runs.map((run) => run.yarn))]; }
    get joins() { return pick(this.own.j); }
    get lasts() { return pick(this.own.f); }
    get waiting() { return pick(this.own.w); }
    get beyond() { return pick(this.own.o); }
    get crossings() { return this.own.x ?? 0; }
    get hangs() { return this.own.m ?? 0; }

    /** A long row that is one stretch over and over: how wide, how often, its runs, and what is left at the end. */
    get fold() {
      if (!this.again) return null;
      const [wide, times] = this.again;
      return { wide, times, runs: between(this.runs, 0, wide), rest: between(this.runs, wide * times, Infinity) };
    }

    /** What is ticked off one by one: its runs, those of a stretch as often as that is worked. `stitch` is the first of
     * each, counted in working order from 0; `columns` its first and last on the chart. */
    get units() {
      if (this.counted) return this.counted;
      const fold = this.fold, columns = columnsOf(this);
      const list = fold ? [...Array.from({ length: fold.times }, (_, turn) => fold.runs.map((run, of) => ({ ...run, turn, of }))).flat(), ...fold.rest.map((run, of) => ({ ...run, turn: fold.times, of }))] : this.runs;
      let stitch = 0;
      return this.counted = list.map((run) => {
        const own = columns.slice(stitch, stitch + run.stitches), unit = { ...run, stitch, columns: [Math.min(...own), Math.max(...own)] };
        stitch += run.stitches;
        return unit;
      });
    }
  }

  const steps = told.steps.map((own, at) => new Step(own, at + 1));
  const ofRow = new Map();
  for (const step of steps) ofRow.set(step.row, [...(ofRow.get(step.row) ?? []), step]);

  /** The step, the unit of it and the yarn that a stitch belongs to; null where there is none. Stitch 1 is at the right. */
  function stitchAt(row, stitch) {
    const column = shape.columns - stitch;
    for (const step of ofRow.get(row) ?? []) {
      const at = columnsOf(step).indexOf(column), unit = step.units.findLastIndex((one) => one.stitch <= at);
      if (at >= 0 && unit >= 0) return { step, unit, yarn: step.units[unit].yarn };
    }
    return null;
  }

  const word = page.dataset.word;
  const side = (row) => (told.sides[1] ? (told.sides[row % 2] === phrase("right side") ? "RS" : "WS") : "");
  /** `RS` or `WS` as knitters of the page's language shorten it. */
  const sideShort = (row) => ({ RS: phrase("RS"), WS: phrase("WS") })[side(row)] ?? "";
  const halfWords = (half) => ({ left: phrase("left-hand side"), right: phrase("right-hand side") })[half] ?? ""; // of the chart as it is printed

  // --- addresses of stitches --------------------------------------------------------------------------------------
  /** `#row-14-s7-9` is stitches 7 to 9 of row 14, `#row-14-s7` is one: numbered as on the chart, whichever way it is worked. */
  const addressOf = ({ row, first, last }) => `#row-${row}-s${first}${last > first ? `-${last}` : ""}`;
  function addressed(hash) {
    const found = /^#row-([0-9]{1,9})-s([0-9]{1,9})(?:-([0-9]{1,9}))?$/.exec(hash);
    if (!found) return null;
    const [row, one, other] = [Number(found[1]), Number(found[2]), Number(found[3] ?? found[2])];
    return { row, first: Math.min(one, other), last: Math.max(one, other) };
  }
  const exists = ({ row, first, last }) => row >= 1 && row <= shape.rows && first >= 1 && last <= shape.columns;
  const stitchesWords = ({ first, last }) => (first === last ? phrase("stitch {first}", { first }) : phrase("stitches {first}–{last}", { first, last }));

  const own = (name) => `lintarsia:${name}:${location.pathname}`;
  /** What this browser keeps for the chart's page, or for every page. */
  const store = {
    get(key) { try { return localStorage.getItem(key); } catch { return null; } },
    set(key, value) { try { if (value === null) localStorage.removeItem(key); else localStorage.setItem(key, value); } catch { /* not kept */ } },
  };

  /** Each row as the chart shows it, from the left, row 1 first: the symbol of every stitch, a blank for none. */
  function texts() {
    const found = Array.from({ length: shape.rows }, () => Array(shape.columns).fill(" "));
    for (const step of steps) {
      const row = found[step.row - 1], columns = columnsOf(step);
      let at = 0;
      for (const { stitches, yarn } of step.runs) for (const end = at + stitches; at < end; at++) row[columns[at]] = yarn.colour.symbol;
    }
    return found.map((row) => row.join(""));
  }

  const names = globalThis.lintarsia.rowForms(word);
  const rowCount = (number) => (word === "round" ? counted(number, "{n} round", "{n} rounds") : counted(number, "{n} row", "{n} rows"));
  return { rowCount, page, svg, shape, texts, colours, yarns, steps, ofRow, stitchAt, columnsOf, word, names, side, sideShort, halfWords, addressOf, addressed, exists, stitchesWords, own, store };
})());
