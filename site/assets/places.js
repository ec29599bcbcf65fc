// The overview knows where you are in each chart, as this browser keeps it for the charts' pages.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="overview"]');
  if (!page) return;
  const read = (kind, path) => { try { return localStorage.getItem(`lintarsia:${kind}:${path}`); } catch { return null; } };

  /** `You are at row 14`, `… at round 3`, `… at row 69, left-hand side`. */
  const { phrase, rowForms } = globalThis.lintarsia;
  const told = (name, word) => {
    const [row, half] = name.split("-"), side = { left: phrase("left-hand side"), right: phrase("right-hand side") }[half];
    return `${phrase("You are at {word} {row}", { ...rowForms(word), row })}${side ? `, ${side}` : ""}`;
  };

  const shown = new Map();
  function show() {
    for (const chart of page.querySelectorAll("[data-n]")) {
      const link = chart.querySelector("a"), path = new URL(link.href).pathname, word = chart.dataset.worked ?? "row";
      const at = read("row", path), finished = !at && read("finished", path);
      shown.get(chart)?.remove();
      shown.delete(chart);
      if (!finished && !/^[0-9]+(-(left|right))?$/.test(at ?? "")) continue;
      const place = document.createElement(finished ? "span" : "a");
      place.className = "place";
      place.textContent = finished ? phrase("Finished") : told(at, word);
      if (!finished) place.href = `${link.getAttribute("href")}#row-${at}`;
      link.after(place);
      shown.set(chart, place);
    }
  }
  addEventListener("pageshow", show);
  show();
})();
