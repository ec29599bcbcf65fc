// A chart's page: larger and smaller, and results that light up their stitches.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const viewport = page && page.querySelector('[data-part="viewport"]');
  const svg = viewport && viewport.querySelector("svg[data-rows]");
  if (!svg) return;

  // --- size -------------------------------------------------------------------------------------------------------
  const natural = svg.viewBox.baseVal.width;
  const LEAST = 1, MOST = 8;
  let zoom = 1;
  // A small chart is not blown up beyond what a stitch needs to be seen and tapped.
  viewport.style.setProperty("--li-fit", `${Math.round(natural * 1.7)}px`);

  function fitWidth() {
    const style = getComputedStyle(viewport);
    const room = viewport.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    return Math.min(room, natural * 1.7);
  }

  function setZoom(to, atX, atY) {
    const before = svg.getBoundingClientRect();
    const view = viewport.getBoundingClientRect();
    const x = atX ?? view.left + view.width / 2;
    const y = atY ?? view.top + view.height / 2;
    const partX = (x - before.left) / before.width, partY = (y - before.top) / before.height;
    zoom = Math.min(MOST, Math.max(LEAST, to));
    svg.classList.toggle("is-zoomed", zoom > 1);
    svg.style.width = zoom > 1 ? `${fitWidth() * zoom}px` : "";
    svg.style.maxWidth = zoom > 1 ? "none" : "";
    viewport.style.maxHeight = zoom > 1 ? "var(--li-free, 82vh)" : "";
    const after = svg.getBoundingClientRect();
    viewport.scrollLeft += after.left + partX * after.width - x;
    viewport.scrollTop += after.top + partY * after.height - y;
  }

  const tools = page.querySelector('[data-part="zoom"]');
  tools.hidden = false;
  tools.addEventListener("click", (event) => {
    const kind = event.target.closest("button")?.dataset.zoom;
    if (kind) setZoom(kind === "fit" ? 1 : zoom * (kind === "in" ? 1.5 : 1 / 1.5));
  });
  viewport.addEventListener("wheel", (event) => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    setZoom(zoom * Math.exp(-event.deltaY / 300), event.clientX, event.clientY);
  }, { passive: false });

  // Knitting along asks for stitches that can be told apart at arm's length.
  svg.addEventListener("lintarsia:cell", (event) => {
    const cell = fitWidth() / natural * Number(svg.dataset.cellWidth);
    if (cell < event.detail.least) setZoom(event.detail.wanted / cell);
  });

  // Two fingers: the chart grows, not the page.
  let pinch = null;
  const gap = (touches) => Math.hypot(touches[0].clientX - touches[1].clientX, touches[0].clientY - touches[1].clientY);
  viewport.addEventListener("touchstart", (event) => {
    if (event.touches.length === 2) pinch = { gap: gap(event.touches), zoom };
  }, { passive: true });
  viewport.addEventListener("touchmove", (event) => {
    if (!pinch || event.touches.length !== 2) return;
    event.preventDefault();
    const [one, two] = event.touches;
    setZoom(pinch.zoom * gap(event.touches) / pinch.gap, (one.clientX + two.clientX) / 2, (one.clientY + two.clientY) / 2);
  }, { passive: false });
  viewport.addEventListener("touchend", (event) => { if (event.touches.length < 2) pinch = null; });

  // --- results ----------------------------------------------------------------------------------------------------
  // What is lit is far from its words: they stand below the chart as well, as long as it is lit.
  const note = document.createElement("div"), words = document.createElement("p"), off = document.createElement("button");
  note.className = "lit-note";
  note.hidden = true;
  off.type = "button";
  off.textContent = "×";
  off.setAttribute("aria-label", "No longer show this result in the chart");
  off.addEventListener("click", () => { light(null); viewport.focus({ preventScroll: true }); });
  note.append(words, off);
  viewport.after(note);

  function tell(number) {
    const spot = number === null ? null : page.querySelector(`[data-mark="${CSS.escape(number)}"]`)?.closest("[id]");
    note.hidden = !spot;
    if (!spot) return;
    const [see, ...rest] = [...spot.childNodes].map((node) => node.cloneNode(true));
    const back = document.createElement("a");
    back.href = `#${spot.id}`;
    back.textContent = see.textContent;
    words.replaceChildren(back, ...rest);
  }

  let lit = null;
  function light(number) {
    lit?.classList.remove("is-lit");
    const mark = number === null ? null : document.getElementById(`c-mark-${number}`);
    tell(mark && number);
    lit = mark;
    if (!mark) return;
    mark.classList.add("is-lit");
    document.getElementById("show-chart").checked = true;
    mark.scrollIntoView({ block: "center", inline: "center" });
  }
  page.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-mark]");
    if (!link) return;
    event.preventDefault();
    light(link.dataset.mark);
    viewport.focus({ preventScroll: true });
  });
  page.addEventListener("keydown", (event) => { if (event.key === "Escape") light(null); });

  // A link to a result opens whatever it is folded into.
  function unfold() {
    const name = decodeURIComponent(location.hash.slice(1));
    const target = name.startsWith("result-") && document.getElementById(name);
    for (let up = target; up; up = up.parentElement) if (up.localName === "details") up.open = true;
    if (target) {
      const see = target.querySelector("a[data-mark]");
      if (see) light(see.dataset.mark);
      target.scrollIntoView({ block: "center" });
    }
  }
  addEventListener("hashchange", unfold);
  unfold();
})();
