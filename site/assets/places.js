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

  const number = /^[0-9]+(-(left|right))?$/;
  const MOST = 4; // places in the pieces of one pattern

  /** Where one is in the pieces of a pattern, whose pages lie in a folder of its name: path and name of each. */
  function pieces(path) {
    if (!/-pattern(\.html|\/)$/.test(path)) return [];
    const folder = `${path.replace(/(\.html|\/)$/, "")}/`, head = `lintarsia:row:${folder}`, found = [];
    try {
      for (let at = 0; at < localStorage.length; at++) {
        const key = localStorage.key(at), rest = key.startsWith(head) ? key.slice(head.length) : "";
        if (/^[^/]+(\.html|\/)$/.test(rest) && number.test(localStorage.getItem(key))) found.push([folder + rest, rest.replace(/(\.html|\/)$/, "").replaceAll("-", " ")]);
      }
    } catch { /* nothing is kept */ }
    return found.sort().slice(0, MOST);
  }

  const shown = new Map();
  function add(chart, after, words, href) {
    const place = document.createElement(href ? "a" : "span");
    place.className = "place";
    place.textContent = words;
    if (href) place.href = href;
    after.after(place);
    shown.set(chart, [...(shown.get(chart) ?? []), place]);
    return place;
  }

  function show() {
    for (const chart of page.querySelectorAll("[data-n]")) {
      const link = chart.querySelector("a"), path = new URL(link.href).pathname, word = chart.dataset.worked ?? "row";
      const at = read("row", path);
      shown.get(chart)?.forEach((place) => place.remove());
      shown.delete(chart);
      let last = link;
      if (number.test(at ?? "")) last = add(chart, last, told(at, word), `${link.getAttribute("href")}#row-${at}`);
      else if (!at && read("finished", path)) last = add(chart, last, phrase("Finished"));
      for (const [piece, name] of pieces(path)) {
        const row = read("row", piece);
        last = add(chart, last, phrase("{place} of {piece}", { place: told(row, read("word", piece) ?? "row"), piece: name }), `${piece}#row-${row}`);
      }
    }
  }
  addEventListener("pageshow", show);
  show();
})();
