// What can wait. An answer comes first: what takes a slow phone long, and what nobody has asked for yet, is done when there
// is nothing else to do, one thing after another, and no more at a time than the browser has time for: a tap can come between.
Object.assign(globalThis.lintarsia, (() => {
  "use strict";
  const idle = typeof requestIdleCallback === "function" ? requestIdleCallback : (done) => setTimeout(done, 60);
  const MOST = 500; // ms: so long it waits where the browser is never idle
  const LEAST = 8; // ms that are left, for another thing at once
  const waiting = new Set();
  let asked = false;

  function ask() {
    if (!asked) idle(next, { timeout: MOST });
    asked = true;
  }

  function next(left) {
    asked = false;
    try {
      do {
        const [task] = waiting;
        if (!task) return;
        waiting.delete(task);
        task();
      } while (left?.timeRemaining() > LEAST);
    } finally { if (waiting.size) ask(); } // one that fails takes none of the others with it
  }

  const later = (task) => { waiting.add(task); ask(); };
  return {
    from: document.currentScript?.src, // which is not known any more once something was put off
    /** Do it when there is time; once, however often it is asked for until then. */
    later,
    /** What a page can be used without: for whoever comes to a place in it at once. */
    rest(task) { if (location.hash) task(); else idle(() => later(task), { timeout: 4 * MOST }); },
    /** Not at all. */
    never(task) { waiting.delete(task); },
    /** Do now what waits; nothing where it has been done. */
    atOnce(task) { if (waiting.delete(task)) task(); },
  };
})());
