// Ticks in winding and weaving lists are kept in this browser.
(() => {
  "use strict";
  const boxes = [...document.querySelectorAll("[data-tick]")];
  if (!boxes.length) return;
  const KEY = `lintarsia:ticks:${location.pathname}`;
  let ticked = new Set();
  try { ticked = new Set(JSON.parse(localStorage.getItem(KEY) ?? "[]")); } catch { /* none kept, or not ours */ }
  for (const box of boxes) {
    if (ticked.has(box.dataset.tick)) box.checked = true;
    box.addEventListener("change", () => {
      if (box.checked) ticked.add(box.dataset.tick); else ticked.delete(box.dataset.tick);
      try { localStorage.setItem(KEY, JSON.stringify([...ticked])); } catch { /* not kept */ }
    });
  }
})();
