// The overview: sort and filter. Without this script everything is there, what blocks release first.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="overview"]');
  const form = page && page.querySelector('[data-part="tools"]');
  if (!form) return;
  const wall = page.querySelector('[data-part="wall"]');
  const body = page.querySelector('[data-part="listing"] tbody');
  const shown = form.querySelector('[data-part="shown"]');
  const lines = new Map([...body.rows].map((row) => [row.dataset.n, row]));
  const none = page.querySelector('[data-part="none"]');
  const charts = [...wall.children].map((item, order) => ({ item, row: lines.get(item.dataset.n), order, ...item.dataset }));
  const MOST_FIRST = new Set(["stitches", "area", "supplies", "fullest", "ends", "metres", "errors", "warnings", "notes"]);
  const NUMBERS = new Set(["order", ...MOST_FIRST]);
  const STATES = ["blocks", "warning", "note", "clear"];
  let turned = false, standing = charts;

  function compare(by) {
    const sign = (MOST_FIRST.has(by) ? -1 : 1) * (turned ? -1 : 1);
    return (a, b) => {
      if (NUMBERS.has(by)) {
        const x = a[by] === undefined ? null : Number(a[by]), y = b[by] === undefined ? null : Number(b[by]);
        if (x === null || y === null) return x === y ? a.order - b.order : x === null ? 1 : -1;
        return sign * (x - y) || a.order - b.order;
      }
      if (by === "state") return sign * (STATES.indexOf(a.state) - STATES.indexOf(b.state)) || a.title.localeCompare(b.title);
      return sign * String(a[by] ?? "").localeCompare(String(b[by] ?? "")) || a.order - b.order;
    };
  }

  function matches(chart) {
    const words = form.elements.words.value.trim().toLocaleLowerCase().split(/\s+/);
    const text = `${chart.title} ${chart.file ?? ""}`.toLocaleLowerCase();
    const state = form.elements.state?.value ?? "", technique = form.elements.technique.value;
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
    if (sorted.some((chart, at) => chart !== standing[at])) {
      wall.append(...sorted.map((chart) => chart.item));
      body.append(...sorted.map((chart) => chart.row));
      standing = sorted;
    }
    shown.textContent = count === charts.length ? "" : globalThis.lintarsia.phrase("{n} of {all}", { n: count, all: charts.length });
    none.hidden = count > 0;
    page.querySelector('[data-part="listing"]').hidden = count === 0;
    for (const head of page.querySelectorAll("[data-sort]")) {
      if (head.dataset.sort === by) head.setAttribute("aria-sort", MOST_FIRST.has(by) !== turned ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
  }

  function sortBy(by) {
    const select = form.elements.sort, head = page.querySelector(`[data-sort="${CSS.escape(by)}"]`);
    if (![...select.options].some((option) => option.value === by)) {
      if (!head) return;
      select.add(new Option(head.textContent.toLowerCase(), by));
    }
    select.value = by;
  }

  // --- the choices stand in the address: they are there again on the way back, and can be sent to somebody ----------
  const FIELDS = { find: "words", technique: "technique", ...(form.elements.state && { state: "state" }) };
  const asTable = page.querySelector("#as-table");

  function keep() {
    const asked = new URLSearchParams();
    for (const [name, field] of Object.entries(FIELDS)) {
      const value = form.elements[field].value.trim();
      if (value) asked.set(name, value);
    }
    if (form.elements.sort.value !== "order") asked.set("sort", form.elements.sort.value);
    if (turned) asked.set("turned", "1");
    if (asTable.checked) asked.set("as", "table");
    try { history.replaceState(null, "", `${location.pathname}${asked.size ? `?${asked}` : ""}`); } catch { /* not kept */ }
  }

  function recall() {
    const asked = new URLSearchParams(location.search);
    for (const [name, field] of Object.entries(FIELDS)) {
      const value = asked.get(name) ?? "", box = form.elements[field];
      if (!box.options || [...box.options].some((option) => option.value === value)) box.value = value;
    }
    sortBy(asked.get("sort") ?? "order");
    turned = asked.has("turned");
    page.querySelector(asked.get("as") === "table" ? "#as-table" : "#as-wall").checked = true;
  }

  for (const head of page.querySelectorAll("[data-sort]")) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener("click", () => {
      const select = form.elements.sort, by = head.dataset.sort;
      turned = select.value === by ? !turned : false;
      sortBy(by);
      show();
      keep();
    });
  }
  form.addEventListener("input", (event) => { if (event.target.name === "sort") turned = false; show(); keep(); });
  page.querySelector('[data-part="as"]').addEventListener("change", keep);
  none.querySelector('[data-part="all"]').addEventListener("click", () => {
    for (const field of Object.values(FIELDS)) form.elements[field].value = "";
    show();
    keep();
    form.elements.words.focus();
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  const fold = form.closest("details");
  fold.hidden = false;
  // Browsers fill in forms by themselves on the way back, after this has run: what the address says holds.
  addEventListener("pageshow", () => { recall(); show(); });
  recall();
  show();
  fold.open = matchMedia("(min-width: 40.01rem)").matches || shown.textContent !== "";
})();
