// Day or evening: what the system says, unless the reader chose. Loaded before the page is shown, lest it flash.
(() => {
  "use strict";
  const root = document.documentElement;
  const KEY = "lintarsia:lamp";
  const read = () => { try { return localStorage.getItem(KEY); } catch { return null; } };
  const keep = (value) => { try { localStorage.setItem(KEY, value); } catch { /* a private window: not kept */ } };
  root.classList.remove("no-script");
  const idle = (done) => (typeof requestIdleCallback === "function" ? requestIdleCallback(done, { timeout: 2000 }) : setTimeout(done, 60));

  // A page that is read from its top can be used before what lies far below is laid out: theme.css leaves that out until
  // then. Whoever comes to a place in the page, comes back to it or moves in it has all of it at once.
  const SOON = 300; // ms after the page has been read: time for the answer to a first tap
  function coming() {
    const life = new AbortController(), { signal } = life;
    const come = () => { life.abort(); root.classList.remove("is-coming"); };
    root.classList.add("is-coming");
    document.addEventListener("readystatechange", () => setTimeout(() => idle(come), SOON), { once: true });
    for (const kind of ["wheel", "touchmove", "keydown", "hashchange"]) addEventListener(kind, come, { signal, capture: true, passive: true });
    addEventListener("click", ({ target }) => { if (target.closest?.('a[href^="#"]:not([data-part="start"])')) come(); }, { signal, capture: true });
  }
  if (!location.hash && performance.getEntriesByType?.("navigation")[0]?.type === "navigate") coming();

  const chosen = read();
  if (chosen === "day" || chosen === "evening") root.dataset.lamp = chosen;

  const SUN = "M12 4V2M12 22v-2M4 12H2M22 12h-2M6 6 4.8 4.8M19.2 19.2 18 18M18 6l1.2-1.2M4.8 19.2 6 18M16.5 12a4.5 4.5 0 1 1-9 0 4.5 4.5 0 0 1 9 0z";
  const LAMP = "M8 3h8l4 9H4zM12 12v9M8 21h8M15.5 12v3";
  const lamp = () => {
    const button = document.querySelector('[data-part="lamp"]');
    if (!button) return;
    const system = matchMedia("(prefers-color-scheme: dark)");
    const evening = () => (root.dataset.lamp ? root.dataset.lamp === "evening" : system.matches);
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    svg.setAttribute("viewBox", "0 0 24 24");
    svg.setAttribute("aria-hidden", "true");
    svg.append(path);
    button.append(svg);
    const show = () => {
      path.setAttribute("d", evening() ? SUN : LAMP);
      const { phrase = (text) => text } = globalThis.lintarsia ?? {};
      button.title = evening() ? phrase("Daylight") : phrase("Lamplight");
      button.setAttribute("aria-label", button.title);
    };
    button.addEventListener("click", () => {
      root.dataset.lamp = evening() ? "day" : "evening";
      keep(root.dataset.lamp);
      show();
    });
    system.addEventListener("change", show);
    show();
    button.hidden = false;
  };
  document.addEventListener("DOMContentLoaded", () => idle(lamp));
})();
