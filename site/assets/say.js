// Something to say of a row or of stitches: from the card, or from a stitch by a long press, the other button or a key.
(() => {
  "use strict";
  const page = document.querySelector('[data-page="chart"]');
  const dialog = page && page.querySelector('[data-part="saying"]');
  const svg = page && page.querySelector('[data-part="viewport"] svg[data-rows]');
  if (!dialog || !svg) return;

  const logs = globalThis.lintarsiaLogs, { phrase, names } = globalThis.lintarsia;
  const form = dialog.querySelector('[data-part="saying-form"]'), fields = form.elements;
  const side = dialog.querySelector('[data-part="saying-side"]'), fault = dialog.querySelector('[data-part="saying-fault"]');
  const note = page.querySelector('[data-part="kept"]'), viewport = svg.closest('[data-part="viewport"]');
  const rows = Number(svg.dataset.rows), columns = Number(svg.dataset.columns);
  const about = {
    of: dialog.dataset.of, file: dialog.dataset.names, title: dialog.dataset.called, over: dialog.dataset.over,
    page: location.pathname.startsWith(logs.ROOT) ? location.pathname.slice(logs.ROOT.length) : "",
    yarns: [...page.querySelectorAll("[data-yarn]")].map((line) => ({ key: line.dataset.yarn, name: line.querySelector("th").firstChild.textContent.trim() })),
  };
  const mark = dialog.dataset.knitMark, piece = dialog.dataset.piece || null;
  // Of a piece that is the same in several sizes, hers is the one that she has a log of, or says here.
  const sizes = [...fields.size.options].map((option) => option.value);
  const chosen = () => { try { return localStorage.getItem(`lintarsia:size:${page.dataset.pattern}`); } catch { return null; } }; // size.js
  const begun = sizes.find((size) => logs.find({ ...about, size })) ?? sizes.find((size) => size === chosen());
  if (begun) fields.size.value = begun;
  dialog.querySelector('[data-part="saying-size"]').hidden = sizes.length < 2;
  const log = () => logs.find({ ...about, size: fields.size.value || null });
  let changing = null; // the remark that is looked at again

  // --- the log goes along with the page ------------------------------------------------------------------------------
  /** Knitting goes on with the chart as this page has it: from now on the log is of that. */
  function follow() {
    const own = log();
    if (!own) return;
    const more = about.yarns.filter(({ key }) => !own.yarns.some((yarn) => yarn.key === key));
    if (own.fingerprint === mark && own.title && !more.length) return;
    const { of, file, title, page, over } = about;
    if (own.file !== file) logs.drop(own);
    logs.keep({ ...own, of, file, title: own.title || title, page: own.page || page, over: own.over || over, yarns: [...own.yarns, ...more], fingerprint: mark });
  }

  // --- where ----------------------------------------------------------------------------------------------------------
  const number = (name) => { const value = Number(fields[name].value); return Number.isInteger(value) && value > 0 ? value : null; };
  const sideOf = (which) => lintarsia.side(which) || null;
  const words = (which) => ({ RS: phrase("right side facing"), WS: phrase("wrong side facing") })[sideOf(which)] ?? "";

  const NUMBERS = ["row", "first", "last"];
  const unreadable = (name) => fields[name].validity.badInput || (fields[name].value !== "" && !number(name));

  function told() {
    const which = number("row");
    side.textContent = [words(which), number("first") ? "" : phrase("the whole {word}, as long as no stitch is named", names)].filter(Boolean).join("; ");
    const beyond = ["first", "last"].some((name) => unreadable(name) || number(name) > columns);
    const wrong = !which || which > rows ? phrase("The chart has {words} 1 to {last}.", { ...names, last: rows }) : beyond ? phrase("The chart has stitches 1 to {last}.", { last: columns }) : "";
    complain(wrong);
    return !wrong;
  }

  function complain(words) {
    fault.textContent = words;
    fault.hidden = !words;
  }

  // What is half written waits, by the remark that it changes, until it is kept or cleared.
  const DRAFTS = lintarsia.own("drafts"), WHAT = [...NUMBERS, "kind", "said"];
  const drafts = () => { try { return JSON.parse(lintarsia.store.get(DRAFTS) ?? "{}") ?? {}; } catch { return {}; } };
  const name = () => changing?.id ?? "new";
  function draft(values) {
    const { [name()]: _, ...others } = drafts(), all = values ? { ...others, [name()]: values } : others;
    lintarsia.store.set(DRAFTS, Object.keys(all).length ? JSON.stringify(all) : null);
  }

  function fill(values, begun) {
    for (const one of WHAT) fields[one].value = values[one];
    dialog.querySelector('[data-part="saying-draft"]').hidden = form.querySelector('[data-say="clear"]').hidden = !begun;
    told();
  }

  let asked = null; // what the dialog was opened for
  function open({ row, stitches, kind = "trouble", said = "" }, remark = null) {
    if (dialog.open) return;
    changing = remark;
    const [first, last] = stitches ?? ["", ""], begun = drafts()[name()];
    asked = { row, first, last, kind, said };
    fill(begun ?? asked, Boolean(begun));
    form.querySelector('[data-say="drop"]').hidden = !remark;
    dialog.showModal();
    fields.said.focus();
  }

  /** The stitch under a point of the window, as the knitter numbers it. */
  function stitchAt(x, y) {
    const { row: which, first: at } = lintarsia.pointed({ clientX: x, clientY: y });
    return which < 1 || which > rows ? null : { row: which, stitches: at < 1 || at > columns ? null : [at, at] };
  }

  // --- ways to it -----------------------------------------------------------------------------------------------------
  const here = () => Number(/^#row-([0-9]+)/.exec(location.hash)?.[1] ?? 1); // the address has the row of the card
  const card = page.querySelector('[data-part="card"]');
  card?.addEventListener("lintarsia:row", follow);
  for (const button of page.querySelectorAll('[data-say="row"]')) {
    button.hidden = false;
    button.addEventListener("click", () => open({ row: here() }));
  }

  viewport.addEventListener("contextmenu", (event) => {
    const pointed = event.button === 2 || event.pointerType === "touch" || event.pointerType === "pen";
    const where = pointed ? svg.contains(event.target) && stitchAt(event.clientX, event.clientY) : { row: here() };
    if (!where) return;
    event.preventDefault();
    open(where);
  });

  // Held down: chart.js knows where, and keeps the finger that is lifted from picking a row.
  svg.addEventListener("lintarsia:held", (event) => {
    event.preventDefault();
    const { row, first, last } = event.detail;
    open({ row, stitches: [first, last] });
  });

  // A mark of what somebody said leads to the words, and picks no row on the way.
  svg.addEventListener("click", (event) => {
    const said = event.target.closest("[data-said]");
    if (!said) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    location.hash = `#said-${said.dataset.said}`;
  }, true);

  page.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-spot]");
    if (!link) return;
    event.preventDefault();
    location.hash = link.dataset.spot; // without scripts, the link leads to the mark alone
  });

  // --- keeping --------------------------------------------------------------------------------------------------------
  function tell(words, kept = true) {
    note.querySelector("p").textContent = words;
    note.querySelector('[data-say="download"]').hidden = kept;
    note.hidden = false;
  }

  const NOT_KEPT = phrase("This browser would not keep it: its store is full or forbidden. It is not lost as long as this page stays open. Download it before you go.");
  function save(own, words) {
    const kept = logs.keep(own);
    begin.hidden = true;
    document.dispatchEvent(new CustomEvent("lintarsia:said"));
    tell(kept ? words : NOT_KEPT, kept);
    draw();
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const said = fields.said.value.trim(), pair = [number("first") ?? number("last"), number("last") ?? number("first")];
    if (!told()) return;
    if (!said) { complain(phrase("There are no words yet.")); fields.said.focus(); return; }
    draft(null);
    follow();
    const own = log() ?? logs.begun({ ...about, size: fields.size.value || null, fingerprint: mark }), which = number("row");
    const remark = { piece, row: which, side: sideOf(which), stitches: pair[0] ? [Math.min(...pair), Math.max(...pair)] : null, kind: fields.kind.value, said, mark, page: about.page, id: changing?.id ?? `${Date.now()}` };
    own.rows = changing ? own.rows.map((one) => (one.id === changing.id ? remark : one)) : [...own.rows, remark];
    dialog.close();
    const place = `${names.word} ${which}${pair[0] ? `, ${lintarsia.stitchesWords({ first: remark.stitches[0], last: remark.stitches[1] })}` : ""}`;
    save(own, phrase("Kept: {place}.", { place }));
  });
  form.addEventListener("input", () => {
    told();
    const values = Object.fromEntries(WHAT.map((one) => [one, fields[one].value]));
    draft(values.said.trim() && WHAT.some((one) => values[one] !== `${asked[one]}`) ? values : null);
  });
  dialog.addEventListener("click", (event) => {
    const act = event.target.closest("button")?.dataset.say;
    if (act === "close") dialog.close();
    if (act === "clear") { draft(null); fill(asked, false); fields.said.focus(); }
    if (act !== "drop") return;
    const own = log();
    draft(null);
    dialog.close();
    if (own && changing) save({ ...own, rows: own.rows.filter((one) => one.id !== changing.id) }, phrase("Taken back."));
  });
  note.addEventListener("click", (event) => {
    const act = event.target.closest("button")?.dataset.say;
    if (act === "download") logs.download(log());
    if (act === "understood") note.hidden = true;
  });

  // --- what she has said stands on the chart ---------------------------------------------------------------------------
  const SVG = "http://www.w3.org/2000/svg", layer = document.createElementNS(SVG, "g");
  layer.setAttribute("class", "own-marks");
  function draw() {
    const own = (log()?.rows ?? []).filter((one) => (!one.mark || one.mark === mark) && (one.piece ?? null) === piece && one.row <= rows);
    layer.replaceChildren(...own.map((one) => {
      const [first, last] = one.stitches ?? [1, columns], link = document.createElementNS(SVG, "a");
      link.setAttribute("href", `#row-${one.row}${one.stitches ? `-s${first}-${last}` : ""}`);
      link.setAttribute("aria-label", phrase("You said: {words}", { words: one.said }));
      const box = document.createElementNS(SVG, "rect");
      for (const [name, value] of Object.entries(lintarsia.frameOf({ row: one.row, first, last }))) box.setAttribute(name, value);
      box.setAttribute("rx", "3");
      link.append(box);
      link.addEventListener("click", (event) => { event.preventDefault(); event.stopPropagation(); open(one, one); });
      return link;
    }));
    svg.append(layer);
  }
  // A log that has nothing to say of any row: gauge, yarn and hours are worth as much.
  const begin = page.querySelector('[data-part="begin"]');
  begin.hidden = Boolean(log());
  begin.addEventListener("click", () => {
    begin.hidden = true;
    if (!log()) save(logs.begun({ ...about, size: fields.size.value || null, fingerprint: mark }), phrase("Your log is begun."));
  });
  follow();
  draw();
})();
