// A chart's single page within somebody else's: picture and key, as high as they are, and the way to all of it.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  if (globalThis.parent === globalThis || !page) return;
  document.documentElement.toggleAttribute("data-framed", true);
  page.removeAttribute("data-page"); // the other scripts then leave it as it stands
  const start = page.querySelector('[data-part="start"]');
  const { phrase, rowForms } = globalThis.lintarsia;
  start.textContent = phrase("Knit it {word} by {word}", rowForms(page.dataset.word));
  start.href = location.href.split("#")[0];
  start.target = "_blank";
  start.rel = "noopener";
  // How high it is, is all that the page around is told, and no secret to any.
  const tell = () => parent.postMessage({ lintarsia: Math.ceil(document.body.getBoundingClientRect().height) }, "*");
  new ResizeObserver(tell).observe(document.body);
  addEventListener("load", tell);
})();
