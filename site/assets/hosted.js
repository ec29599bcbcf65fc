// In somebody else's site: starts the scripts of our pages, and starts them again where a theme changes pages without
// loading them. Nothing is loaded, and nothing of the theme is touched, on pages that hold nothing of ours.
(() => {
  "use strict";
  const SCRIPTS = new URL("pages.js", document.currentScript.src);
  const WIDE = 640; // px: narrower than that, the card needs all the width there is
  const BOTH = 896; // and there, line-up and stitches have room side by side
  let shown = [], life = null, loading = null, here = "";
  const ours = () => [...document.querySelectorAll('[data-part="hosted"]')];
  const address = () => location.pathname + location.search;

  function load() {
    return loading ??= new Promise((done) => {
      const script = document.createElement("script");
      script.src = SCRIPTS;
      script.addEventListener("load", done);
      document.body.append(script);
    });
  }

  /** What our scripts listen to, watch and wait for, for as long as their page stands. */
  function lifelong(signal) {
    const later = (wait) => (done, ...rest) => wait((...told) => { if (!signal.aborted) done(...told); }, ...rest);
    return {
      addEventListener: (kind, heard, options) => addEventListener(kind, heard, { ...(typeof options === "object" ? options : { capture: Boolean(options) }), signal }),
      matchMedia: (query) => {
        const list = matchMedia(query);
        return { get matches() { return list.matches; }, addEventListener: (kind, heard) => list.addEventListener(kind, heard, { signal }) };
      },
      ResizeObserver: class extends ResizeObserver {
        constructor(seen) {
          super(seen);
          signal.addEventListener("abort", () => this.disconnect());
        }
      },
      requestAnimationFrame: later(requestAnimationFrame),
      requestIdleCallback: globalThis.requestIdleCallback && later(requestIdleCallback),
      setTimeout: later(setTimeout),
    };
  }

  /** The card stands in the page's own column where that is wide, lest it covers what the theme has beside it. */
  function place(root) {
    const { left, right, width } = root.getBoundingClientRect(), all = document.documentElement.clientWidth;
    const beside = width >= WIDE && (left > 120 || all - right > 120);
    root.style.setProperty("--li-before", beside ? `${Math.round(left)}px` : "0px");
    root.style.setProperty("--li-after", beside ? `${Math.round(all - right)}px` : "0px");
    root.style.setProperty("--li-rim", beside ? "1px" : "0px");
    root.style.setProperty("--li-over", `${over()}px`);
    root.classList.toggle("is-narrow", (beside ? width : all) < BOTH);
  }

  /** How far down, px, the theme keeps something at the head of the window, beneath which the page moves. */
  function over() {
    const stays = document.elementsFromPoint(innerWidth / 2, 1).filter((one) => /fixed|sticky/.test(getComputedStyle(one).position));
    const low = Math.max(0, ...stays.map((one) => Math.round(one.getBoundingClientRect().bottom)));
    return low < innerHeight / 3 ? low : 0;
  }

  async function look() {
    const now = ours();
    if (now.length === shown.length && now.every((one, at) => one === shown[at])) return;
    life?.abort();
    for (const one of shown) one.dispatchEvent(new CustomEvent("lintarsia:gone"));
    [shown, here] = [now, address()];
    if (!now.length) return;
    const { signal } = life = new AbortController();
    await load();
    if (signal.aborted) return;
    for (const root of now) {
      root.classList.add("is-started");
      place(root);
      // A theme that loads pages by itself takes every link for one to another page.
      root.addEventListener("click", (event) => {
        const link = event.target.closest("a");
        const stays = link && (typeof link.href !== "string" || link.href.split("#")[0] === location.href.split("#")[0]);
        if (stays) event.stopPropagation();
      }, { signal });
    }
    addEventListener("resize", () => now.forEach(place), { signal });
    globalThis.lintarsiaPages(lifelong(signal));
  }

  // Likewise, to go back within a page is no change of pages.
  addEventListener("popstate", (event) => {
    if (ours().length && here === address()) event.stopImmediatePropagation();
  }, true);
  new MutationObserver(look).observe(document.body, { childList: true, subtree: true });
  look();
})();
