// The overview: sort and filter. Without this script everything is there, what blocks release first.
(() => {
  "use strict";
  const page = document.querySelector(".overview");
  const form = page && page.querySelector(".tools");
  if (!form) return;
  const wall = page.querySelector(".wall");
  const body = page.querySelector(".listing tbody");
  const shown = form.querySelector(".shown");
  const lines = new Map([...body.rows].map((row) => [row.dataset.n, row]));
  const charts = [...wall.children].map((item, order) => ({ item, row: lines.get(item.dataset.n), order, ...item.dataset }));
  const NUMBERS = new Set(["order", "stitches", "supplies", "fullest", "ends", "metres", "errors", "warnings", "notes"]);
  const MOST_FIRST = new Set(["stitches", "supplies", "fullest", "ends", "metres", "errors", "warnings", "notes"]);
  let turned = false;

  function compare(by) {
    const sign = (MOST_FIRST.has(by) ? -1 : 1) * (turned ? -1 : 1);
    return (a, b) => {
      if (NUMBERS.has(by)) {
        const x = a[by] === undefined ? null : Number(a[by]), y = b[by] === undefined ? null : Number(b[by]);
        if (x === null || y === null) return x === y ? a.order - b.order : x === null ? 1 : -1;
        return sign * (x - y) || a.order - b.order;
      }
      return sign * String(a[by] ?? "").localeCompare(String(b[by] ?? "")) || a.order - b.order;
    };
  }

  function matches(chart) {
    const words = form.elements.words.value.trim().toLocaleLowerCase().split(/\s+/);
    const text = `${chart.title} ${chart.file}`.toLocaleLowerCase();
    const state = form.elements.state.value, technique = form.elements.technique.value;
    return words.every((word) => text.includes(word)) && (!technique || chart.technique === technique)
      && (!state || chart.state === state || (state === "warning" && (chart.errors > 0 || chart.warnings > 0)));
  }

  function show() {
    const by = form.elements.sort.value;
    const sorted = [...charts].sort(compare(by));
    let count = 0;
    for (const chart of sorted) {
      const fits = matches(chart);
      count += fits;
      chart.item.hidden = chart.row.hidden = !fits;
    }
    wall.append(...sorted.map((chart) => chart.item));
    body.append(...sorted.map((chart) => chart.row));
    shown.textContent = count === charts.length ? "" : `${count} of ${charts.length}`;
    for (const head of page.querySelectorAll("th[data-sort]")) {
      if (head.dataset.sort === by) head.setAttribute("aria-sort", MOST_FIRST.has(by) !== turned ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
  }

  for (const head of page.querySelectorAll("th[data-sort]")) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener("click", () => {
      const select = form.elements.sort, by = head.dataset.sort;
      turned = select.value === by ? !turned : false;
      if (![...select.options].some((option) => option.value === by)) select.add(new Option(button.textContent.toLowerCase(), by));
      select.value = by;
      show();
    });
  }
  form.addEventListener("input", (event) => { if (event.target.name === "sort") turned = false; show(); });
  form.addEventListener("submit", (event) => event.preventDefault());
  const fold = form.closest("details");
  fold.open = matchMedia("(min-width: 40.01rem)").matches;
  fold.hidden = false;
  show();
})();
