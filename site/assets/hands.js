// For those who knit from left to right: the chart and the line-up the other way round, with numbers and words as they are.
(() => {
  "use strict";
  const { page, svg, store, phrase } = globalThis.lintarsia ?? {};
  const choice = page && page.querySelector('[data-part="left-handed"]');
  if (!choice) return;
  const KEY = "lintarsia:hands", box = choice.querySelector("input");
  const ANCHORS = { start: "end", end: "start" };
  let turned = false;

  /** Texts of a drawing that is shown in a mirror, each turned once more where it stands. */
  function turnTexts() {
    for (const text of svg.querySelectorAll("text")) {
      if (lintarsia.letters?.contains(text)) continue; // which are written anew
      const anchor = text.closest("[text-anchor]")?.getAttribute("text-anchor") ?? "start";
      const x = (text.getAttribute("x") ?? "0").trim().split(/[\s,]+/).map((one) => -Number(one));
      const before = (text.getAttribute("transform") ?? "").replace(/ ?scale\(-1 1\)$/, "");
      text.setAttribute("x", x.join(" "));
      if (turned) text.setAttribute("transform", `${before} scale(-1 1)`.trim());
      else if (before) text.setAttribute("transform", before); else text.removeAttribute("transform");
      text.setAttribute("text-anchor", ANCHORS[anchor] ?? anchor);
    }
  }

  function turn(left) {
    if (left === turned) return;
    turned = left;
    if (left) page.dataset.hands = "left"; else delete page.dataset.hands;
    turnTexts();
    for (const way of page.querySelectorAll("[data-way]")) {
      const leftward = (way.dataset.way === "left") !== left;
      way.firstChild.textContent = leftward ? "←" : "→";
      if (way.lastElementChild) way.lastElementChild.textContent = ` ${leftward ? phrase("right to left") : phrase("left to right")}`;
    }
    page.dispatchEvent(new CustomEvent("lintarsia:hands"));
  }

  lintarsia.rest(() => { choice.hidden = false; });
  box.addEventListener("change", () => { store.set(KEY, box.checked ? "left" : null); turn(box.checked); });
  if (store.get(KEY) === "left") { box.checked = true; turn(true); }
})();
