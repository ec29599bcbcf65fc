// What can wait. An answer comes first: what takes a slow phone long, and what nobody has asked for yet, is done when there
// is nothing else to do, one thing after another, so that a tap can come in between.
Object.assign(globalThis.lintarsia, (() => {
  "use strict";
  const idle = typeof requestIdleCallback === "function" ? requestIdleCallback : (done) => setTimeout(done, 60);
  const MOST = 1000; // ms: so long it waits where the browser is never idle
  const waiting = new Set();
  let asked = false;

  function ask() {
    if (!asked) idle(next, { timeout: MOST });
    asked = true;
  }

  function next() {
    asked = false;
    const [task] = waiting;
    if (!task) return;
    waiting.delete(task);
    if (waiting.size) ask();
    task();
  }

  return {
    /** Do it when there is time; once, however often it is asked for until then. */
    later(task) { waiting.add(task); ask(); },
    /** Do now what waits; nothing where it has been done. */
    atOnce(task) { if (waiting.delete(task)) task(); },
  };
})());
