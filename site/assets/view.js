// The pictures of a chart as a map: dragged, pinched, scrolled, by keys and by buttons; a zoom that was chosen is kept.
(() => {
  "use strict";
  const { page, svg, shape, own, store } = globalThis.lintarsia ?? {};
  if (!page) return;
  const KEY = own?.("cell"); // the width of a stitch on the screen that was chosen, CSS pixels
  const LARGEST = 48, STEP = 1.5, FAR = 60;

  /** One picture that can be moved in its window. `natural` is its width in its own units, `cell` that of a stitch. */
  class View {
    constructor(window, plate, natural, cell, ratio = 0) {
      Object.assign(this, { window, plate, natural, cell, ratio });
      this.zoom = 1;
      this.drawn = () => {};
      this.pointers = new Map();
      this.bound();
      window.addEventListener("scroll", () => this.soon(), { passive: true });
      window.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
      window.addEventListener("keydown", (event) => this.key(event));
      for (const kind of ["pointerdown", "pointermove", "pointerup", "pointercancel"]) window.addEventListener(kind, (event) => this[kind](event));
      window.addEventListener("dragstart", (event) => event.preventDefault());
      window.addEventListener("click", (event) => { if (this.dragged) { event.stopPropagation(); event.preventDefault(); } }, { capture: true });
      // Two fingers are ours: the browser would scroll, or make the whole page larger.
      window.addEventListener("touchmove", (event) => { if (event.touches.length > 1) event.preventDefault(); }, { passive: false });
      this.room = 0; // CSS pixels for the picture, as last seen; 0 where that is not known
      new ResizeObserver(([seen]) => { this.room = seen.contentRect.width; this.resize(); }).observe(window);
    }

    /** Its width where nothing is zoomed: a small one is not blown up beyond what is seen and tapped, and one that is only
     * looked at, whose height is `ratio` of its width, is seen whole. */
    get largest() { return Math.min(this.natural * 1.7, this.ratio ? innerHeight * 0.78 / this.ratio : Infinity); }

    /** Its width is bounded where nothing is zoomed and the screen would give it more. By a property of the plate alone: one
     * that is handed down would have all of the drawing looked at again. */
    bound() { this.plate.style.maxWidth = this.zoom > 1.001 || this.largest >= innerWidth ? "" : `${Math.round(this.largest)}px`; }

    get fit() {
      const style = getComputedStyle(this.window);
      return this.fitting(this.window.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight));
    }

    fitting(room) { return Math.max(1, Math.min(room, this.largest)); }

    /** Pixels of the screen for a unit of the picture. */
    get scale() { return this.plate.getBoundingClientRect().width / this.natural; }

    /** The part of the picture, as shares of its width and height, at a point of the screen. */
    partAt(x, y) {
      const { left, top, width, height } = this.plate.getBoundingClientRect();
      return [(x - left) / width, (y - top) / height];
    }

    /** Zoom, and keep what is at a point of the screen where it is, or bring a part of the picture there: in the middle
     * where no point is named. */
    set(to, x, y, part) {
      const seen = this.window.getBoundingClientRect();
      x ??= seen.left + seen.width / 2;
      y ??= seen.top + seen.height / 2;
      const [across, down] = part ?? this.partAt(x, y);
      this.grow(to);
      const after = this.plate.getBoundingClientRect();
      this.window.scrollLeft += after.left + across * after.width - x;
      this.window.scrollTop += after.top + down * after.height - y;
      this.soon();
    }

    /** Zoom alone, without a thought of what is in sight. */
    grow(to, fit = this.fit) {
      const most = Math.max(8, LARGEST / (fit / this.natural * this.cell));
      this.zoom = Math.min(most, Math.max(1, to));
      const larger = this.zoom > 1.001;
      this.plate.classList.toggle("is-zoomed", larger);
      this.plate.style.width = larger ? `${fit * this.zoom}px` : "";
      this.bound();
    }

    choose(to, x, y, part) {
      this.set(to, x, y, part);
      this.chosen = this.zoom > 1.001 ? this.scale * this.cell : null;
      if (KEY && this === lintarsia.view) store.set(KEY, this.chosen && this.chosen.toFixed(2));
    }

    /** Stitches `wanted` wide where they are below `least`, unless somebody chose how large they are. Whoever asks brings
     * something into sight afterwards. */
    atLeast(least, wanted) {
      const fit = this.room ? this.fitting(this.room) : this.fit, now = fit / this.natural * this.cell * this.zoom;
      if (this.chosen === undefined && now < least) this.grow(this.zoom * wanted / now, fit);
    }

    resize() {
      const wide = Math.round(this.window.clientWidth);
      const before = this.wide;
      if (wide === before || !wide) return this.soon();
      this.wide = wide;
      this.bound();
      if (before === undefined) return this.soon(); // nothing has changed since it was made
      if (this.chosen) this.set(this.chosen / (this.fit / this.natural * this.cell));
      else if (this.zoom > 1) this.set(this.zoom);
      else this.soon();
    }

    soon() {
      this.waiting ??= requestAnimationFrame(() => { this.waiting = null; this.drawn(); });
    }

    /** Move as little as brings a rectangle of the screen into sight, `edge` away from the borders. Of one that is wider
     * than the window, its left end, or its right where that is where one begins. */
    reveal(spot, edge = 24, fromRight = false) {
      const seen = this.inner();
      const by = (low, high, from, to) => (high - low > to - from - 2 * edge ? low - from - edge : low < from + edge ? low - from - edge : high > to - edge ? high - to + edge : 0);
      const wider = spot.right - spot.left > seen.right - seen.left - 2 * edge;
      this.window.scrollLeft += wider && fromRight ? spot.right - seen.right + edge : by(spot.left, spot.right, seen.left, seen.right);
      this.window.scrollTop += by(spot.top, spot.bottom, seen.top, seen.bottom);
    }

    /** What of the screen the picture is seen in, numbers at its borders left out. */
    inner() {
      const seen = this.window.getBoundingClientRect(), style = getComputedStyle(this.window);
      return {
        left: seen.left + parseFloat(style.paddingLeft), right: seen.right - parseFloat(style.paddingRight),
        top: seen.top, bottom: seen.bottom - parseFloat(style.paddingBottom),
      };
    }

    wheel(event) {
      if (!event.ctrlKey) return;
      event.preventDefault();
      this.choose(this.zoom * Math.exp(-event.deltaY / 300), event.clientX, event.clientY);
    }

    key(event) {
      if (event.altKey || event.ctrlKey || event.metaKey) return;
      const to = { "+": this.zoom * STEP, "=": this.zoom * STEP, "-": this.zoom / STEP, 0: 1 }[event.key];
      const [x, y] = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key] ?? [0, 0];
      if (to) this.choose(to);
      else if (event.shiftKey && (x || y)) this.window.scrollBy({ left: x * FAR, top: y * FAR, behavior: "instant" });
      else return;
      event.preventDefault();
      event.stopPropagation();
    }

    // One pointer drags (a finger by the browser's own scrolling, which knows about its speed), two pinch.
    pointerdown(event) {
      if (event.button > 0) return;
      this.pointers.set(event.pointerId, event);
      this.dragged = false;
      this.pinch = this.pointers.size === 2 ? { gap: this.gap(), zoom: this.zoom, part: this.partAt(...this.between()) } : null;
      this.drag = event.pointerType === "mouse" ? { x: event.clientX, y: event.clientY, left: this.window.scrollLeft, top: this.window.scrollTop } : null;
    }

    pointermove(event) {
      if (!this.pointers.has(event.pointerId)) return;
      this.pointers.set(event.pointerId, event);
      if (this.pinch && this.pointers.size === 2) {
        this.dragged = true;
        this.choose(this.pinch.zoom * this.gap() / this.pinch.gap, ...this.between(), this.pinch.part);
      } else if (this.drag) {
        const x = event.clientX - this.drag.x, y = event.clientY - this.drag.y;
        if (!this.dragged && Math.hypot(x, y) > 5) {
          this.dragged = true;
          this.window.setPointerCapture(event.pointerId);
        }
        if (this.dragged) this.window.scrollTo({ left: this.drag.left - x, top: this.drag.top - y, behavior: "instant" });
      }
    }

    pointerup(event) {
      this.pointers.delete(event.pointerId);
      this.drag = this.pinch = null;
    }

    pointercancel(event) { this.pointerup(event); }

    between() {
      const [one, two] = this.pointers.values();
      return [(one.clientX + two.clientX) / 2, (one.clientY + two.clientY) / 2];
    }

    gap() {
      const [one, two] = this.pointers.values();
      return Math.max(1, Math.hypot(one.clientX - two.clientX, one.clientY - two.clientY));
    }
  }

  const window = svg.closest('[data-part="viewport"]');
  const view = lintarsia.view = new View(window, svg.closest('[data-part="plate"]'), svg.viewBox.baseVal.width, shape.cellWidth);
  const kept = Number(store.get(KEY));
  if (kept > 0) {
    view.chosen = kept;
    view.set(kept / (view.fit / view.natural * view.cell));
  }

  // The other pictures, each when it is first looked at.
  const views = new Map([[window, view]]);
  const tools = page.querySelector('[data-part="zoom"]');
  function inSight() {
    for (const part of page.querySelectorAll('[data-part="viewport"], [data-part="picture"]')) {
      if (!part.clientWidth) continue;
      if (!views.has(part)) {
        const plate = part.firstElementChild, picture = plate.firstElementChild;
        const natural = Number(picture.getAttribute("width")) || 1000, high = Number(picture.getAttribute("height")) || natural;
        views.set(part, new View(part, plate, natural, natural / shape.columns, high / natural));
      }
      return views.get(part);
    }
    return view;
  }
  lintarsia.rest(() => { tools.hidden = false; });
  tools.addEventListener("click", (event) => {
    const kind = event.target.closest("button")?.dataset.zoom, shown = inSight();
    if (kind) shown.choose(kind === "fit" ? 1 : shown.zoom * (kind === "in" ? STEP : 1 / STEP));
  });
  page.addEventListener("change", (event) => { if (event.target.name === "picture") inSight(); });

  // --- where a stitch is ------------------------------------------------------------------------------------------
  const wide = svg.viewBox.baseVal.width, high = svg.viewBox.baseVal.height;
  lintarsia.mirrored = () => page.dataset.hands === "left";
  /** The row and the stitch, counted from the right of the chart, of a point of the screen, beyond its edges too. */
  lintarsia.pointed = ({ clientX, clientY }) => {
    const box = svg.getBoundingClientRect(), share = (clientX - box.left) / box.width;
    const x = (lintarsia.mirrored() ? 1 - share : share) * wide, y = (clientY - box.top) / box.height * high;
    const stitch = shape.columns - Math.floor((x - shape.left) / shape.cellWidth), row = shape.rows - Math.floor((y - shape.top) / shape.cellHeight);
    return { row, first: stitch, last: stitch };
  };
  /** The stitch under a point; null where there is none. */
  lintarsia.under = (event) => {
    const spot = lintarsia.pointed(event);
    return lintarsia.exists(spot) ? spot : null;
  };
  /** Where stitches are on the screen. */
  lintarsia.placeOf = ({ row, first, last }, box = svg.getBoundingClientRect()) => {
    const unit = box.width / wide;
    const from = (shape.left + (shape.columns - last) * shape.cellWidth) * unit, to = (shape.left + (shape.columns - first + 1) * shape.cellWidth) * unit;
    const [left, right] = lintarsia.mirrored() ? [box.right - to, box.right - from] : [box.left + from, box.left + to];
    const top = box.top + (shape.top + (shape.rows - row) * shape.cellHeight) * unit;
    return { left, right, top, bottom: top + shape.cellHeight * unit };
  };
  /** A rectangle around stitches in the drawing's own units, `beyond` larger on every side. */
  lintarsia.frameOf = ({ row, first, last, rows = 1 }, beyond = 0) => ({
    x: shape.left + (shape.columns - last) * shape.cellWidth - beyond, y: shape.top + (shape.rows - row - rows + 1) * shape.cellHeight - beyond,
    width: (last - first + 1) * shape.cellWidth + 2 * beyond, height: rows * shape.cellHeight + 2 * beyond,
  });
  /** Say which stitches they are: rulers.js does, as soon as it is there. */
  lintarsia.tell = (spot) => { lintarsia.toTell = spot; };
  lintarsia.frames = []; // of what one is at, where they are drawn
  lintarsia.rect = (kind) => {
    const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    rect.setAttribute("class", kind);
    return rect;
  };
  lintarsia.lay = (rect, spot, beyond) => {
    for (const [name, value] of Object.entries(lintarsia.frameOf(spot, beyond))) rect.setAttribute(name, value);
    if (!rect.isConnected) svg.append(rect);
  };
})();
