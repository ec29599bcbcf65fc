// Ticks in winding and weaving lists are kept in this browser, with what they were ticks of: a yarn of another length,
// colour or holder is not the one that was wound.
(() => {
  "use strict";
  const boxes = [...document.querySelectorAll("[data-tick]")];
  if (!boxes.length) return;
  const KEY = `lintarsia:ticks:${location.pathname}`;
  const of = (box) => {
    const line = box.closest("[data-supply]");
    if (!line) return "";
    const [, , colour, length, holder] = [...line.cells].map((cell) => cell.textContent.trim()); // after box and name
    return [colour, holder, length].join(" · ");
  };
  let ticked = new Map();
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}"); // a list in releases that kept nothing but the names
    ticked = new Map(Array.isArray(kept) ? kept.map((name) => [name, null]) : Object.entries(kept));
  } catch { /* none kept, or not ours */ }
  const keep = () => { try { localStorage.setItem(KEY, JSON.stringify(Object.fromEntries(ticked))); } catch { /* not kept */ } };
  const known = new Map(boxes.map((box) => [box.dataset.tick, box]));
  const lost = [...ticked].filter(([name, was]) => !known.has(name) || (was !== null && was !== of(known.get(name))));
  for (const [name] of lost) ticked.delete(name);
  if (lost.length) {
    keep();
    const detail = globalThis.lintarsia.phrase("No longer what you ticked, and so without a tick: {names}.", { names: lost.map(([name]) => name).join(", ") });
    document.querySelector('[data-part="changed"]')?.dispatchEvent(new CustomEvent("lintarsia:told", { detail }));
  }
  for (const box of boxes) if (ticked.has(box.dataset.tick)) box.checked = true;
  addEventListener("change", ({ target: box }) => {
    if (!box.dataset.tick) return;
    if (box.checked) ticked.set(box.dataset.tick, of(box)); else ticked.delete(box.dataset.tick);
    keep();
  });
})();
