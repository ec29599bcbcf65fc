// The row that is knitted is bright in the drawing and the rest recedes; of its runs those that are done recede as well, and
// what comes next is framed.
(() => {
  "use strict";
  const { page, svg, shape, steps, view } = globalThis.lintarsia ?? {};
  if (!view || !page.querySelector('[data-part="card"]')) return;
  const rows = shape.rows;

  const positions = new Map(); // of the steps of a row, and of a side's part of it
  steps.forEach(({ row, half }, index) => {
    for (const key of new Set([`${row}`, `${row}${half}`])) positions.set(key, [...(positions.get(key) ?? []), index + 1]);
  });
  const groups = [...svg.querySelectorAll("[data-row][data-side]")].flatMap((group) => {
    const halves = [...group.querySelectorAll("[data-half]")];
    group.classList.toggle("is-parted", halves.length > 0); // then its sides are dimmed, not the row
    return halves.length ? halves.map((half) => [`${group.dataset.row}${half.dataset.half}`, half]) : [[group.dataset.row, group]];
  });
  const whole = !groups.length; // a large chart has no group of a row: what is not the row is veiled
  const numbers = [...svg.querySelectorAll('[data-part="row-numbers"] text')].map((text) => [text.textContent, text]);
  const drawn = [...groups, ...numbers].map(([key, part]) => ({ part, known: positions.get(key) ?? [], state: "" }));
  const frame = lintarsia.rect("row-frame"), here = lintarsia.rect("run-frame"), done = lintarsia.rect("run-done");
  const above = lintarsia.rect("veil"), below = lintarsia.rect("veil is-done"), beside = [lintarsia.rect("veil"), lintarsia.rect("veil")];
  lintarsia.frames.push(frame);
  let listed = null; // the line of the current row in the list

  /** Of a step, counted from 1; 0 for none. */
  lintarsia.brighten = (step) => {
    for (const one of drawn) {
      const state = one.known.includes(step) ? "is-current" : one.known.at(-1) < step ? "is-done" : "";
      if (state === one.state) continue;
      if (one.state) one.part.classList.remove(one.state);
      if (state) one.part.classList.add(state);
      one.state = state;
    }
    listed?.classList.remove("is-current");
    listed = step ? document.getElementById(`row-${steps[step - 1].name}`)?.closest("tr") : null;
    if (!step) { for (const part of [frame, here, done, above, below, ...beside]) part.remove(); return; }
    listed?.classList.add("is-current");
    const { row, cells: [first, end] = [0, shape.columns] } = steps[step - 1];
    const across = { first: 1, last: shape.columns };
    if (whole) {
      if (row < rows) lintarsia.lay(above, { ...across, row: row + 1, rows: rows - row }); else above.remove();
      if (row > 1) lintarsia.lay(below, { ...across, row: 1, rows: row - 1 }); else below.remove();
      // Beside one side of an opening lies the other.
      if (first > 0) lintarsia.lay(beside[0], { row, first: shape.columns - first + 1, last: shape.columns }); else beside[0].remove();
      if (end < shape.columns) lintarsia.lay(beside[1], { row, first: 1, last: shape.columns - end }); else beside[1].remove();
    }
    lintarsia.lay(frame, { row, first: shape.columns - end + 1, last: shape.columns - first }, 1.5);
    frame.setAttribute("rx", "2");
  };

  /** Where in a row one is, by the run that comes next; answers with its stitches. */
  lintarsia.brightenUnit = (step, unit) => {
    const units = step.units, now = units[unit];
    const spot = (columns) => ({ row: step.row, first: shape.columns - columns[1], last: shape.columns - columns[0] });
    if (units.length > 1 && now) lintarsia.lay(here, spot(now.columns), 1); else here.remove();
    const passed = units.slice(0, unit).flatMap((one) => one.columns);
    if (passed.length) lintarsia.lay(done, spot([Math.min(...passed), Math.max(...passed)])); else done.remove();
    return now ? spot(now.columns) : spot(units.at(-1)?.columns ?? [0, shape.columns - 1]);
  };
})();
