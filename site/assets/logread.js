// A log read back from its file. Of YAML it reads what logs are written in: mappings and lists, in blocks or in braces, and
// text. Nothing that is read is ever taken for more than text.
globalThis.lintarsiaLogReading = (() => {
  "use strict";
  const { phrase } = globalThis.lintarsia;
  class Unreadable extends Error {}

  const MOST = 1e6; // characters; a log of a thousand remarks has a fifth of that
  const ESCAPES = { n: "\n", t: "\t", r: "\r", 0: "\0", '"': '"', "\\": "\\", "/": "/", " ": " ", b: "\b", f: "\f", e: "\x1b", N: "\x85", _: "\xa0", L: "\u2028", P: "\u2029" };

  /** The file's data: objects without a prototype, arrays, and text. */
  function parse(source) {
    if (source.length > MOST) throw new Unreadable(phrase("it is too long for a log"));
    const all = source.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n");
    let at = 0, deep = 0;
    const fail = (why) => { throw new Unreadable(phrase("line {n}: {why}", { n: all.slice(0, at).split("\n").length, why })); };
    const rest = () => all.slice(at, all.indexOf("\n", at) < 0 ? all.length : all.indexOf("\n", at));
    const object = () => Object.create(null);

    /** To the next thing that is no blank, line or comment. */
    function skip() {
      for (;;) {
        const [blank] = /^[ \n]*/.exec(all.slice(at, at + 4096));
        at += blank.length;
        const spaced = at === 0 || /[ \n]/.test(all[at - 1]);
        if (all[at] === "#" && spaced) at += rest().length; else if (!blank) return;
      }
    }
    const column = () => at - (all.lastIndexOf("\n", at - 1) + 1);

    function doubled() {
      const start = at++;
      for (let said = ""; ; at++) {
        const char = all[at];
        if (char === undefined) { at = start; fail(phrase("a quotation mark is never closed")); }
        if (char === '"') { at++; return said; }
        if (char === "\n") { said = `${said.replace(/ +$/, "")} `; while (/[ \n]/.test(all[at + 1] ?? "")) at++; continue; }
        if (char !== "\\") { said += char; continue; }
        const [hex] = /^(?:x[\da-f]{2}|u[\da-f]{4}|U[\da-f]{8})/i.exec(all.slice(++at, at + 9)) ?? [];
        const code = hex && Number.parseInt(hex.slice(1), 16);
        if (hex && code <= 0x10ffff) { said += String.fromCodePoint(code); at += hex.length - 1; }
        else if (all[at] in ESCAPES) said += ESCAPES[all[at]];
        else fail(phrase("there is a backslash before a letter that means nothing with one"));
      }
    }

    function single() {
      const found = /^'((?:[^']|'')*)'/.exec(all.slice(at));
      if (!found) fail(phrase("a quotation mark is never closed"));
      at += found[0].length;
      return found[1].replaceAll("''", "'").replace(/ *\n */g, " ");
    }

    /** `inside`: within braces, where a comma ends it. */
    function bare(inside) {
      const [found] = (inside ? /^(?:[^,[\]{}:#\n]|:(?=[^ ,\]}\n])|(?<=[^ ])#)*/ : /^(?:[^:#\n]|:(?=[^ \n])|(?<=[^ ])#)*/).exec(rest());
      if (/^[&*!|>%@`]/.test(found)) fail(phrase("{sign} is more than this page reads", { sign: found[0] }));
      at += found.length;
      return found.trim();
    }

    function scalar(inside) {
      return all[at] === '"' ? doubled() : all[at] === "'" ? single() : bare(inside);
    }

    function flow() {
      if (++deep > 20) fail(phrase("braces in braces, too deep for a log"));
      const open = all[at++], close = open === "{" ? "}" : "]", found = open === "{" ? object() : [];
      for (;;) {
        skip();
        if (all[at] === close) { at++; deep--; return found; }
        if (at >= all.length) fail(phrase("a {sign} is never closed", { sign: open }));
        const one = /[[{]/.test(all[at]) ? flow() : scalar(true);
        skip();
        if (open === "[") found.push(one);
        else if (all[at] === ":" && typeof one === "string") {
          at++;
          skip();
          found[one] = /[[{]/.test(all[at] ?? "") ? flow() : scalar(true);
          skip();
        } else fail(phrase("expected `: ` after a key"));
        if (all[at] === ",") at++; else if (all[at] !== close) fail(phrase("expected , or {sign}", { sign: close }));
      }
    }

    /** Text in lines of its own, after | or >. */
    function block(above) {
      const folded = all[at] === ">", said = [];
      at += rest().length + 1;
      for (let wide = 0; at < all.length; at += rest().length + 1) {
        const line = rest(), indent = /^ */.exec(line)[0].length;
        if (line.trim() && indent <= above) break;
        wide ||= line.trim() ? indent : 0;
        said.push(line.slice(wide));
      }
      return said.join(folded ? " " : "\n").trim();
    }

    function value(above) {
      const line = all.lastIndexOf("\n", at - 1);
      skip();
      const below = all.lastIndexOf("\n", at - 1) !== line;
      if (at >= all.length || (below && (column() < above || (column() === above && all[at] !== "-")))) return "";
      if (/[[{]/.test(all[at])) return flow();
      if (!below && /^[|>][+-]? *(?:\n|$)/.test(all.slice(at, at + 40))) return block(above);
      if (below) return node(column());
      return /^- /.test(rest()) ? fail(phrase("a list begins in a line of its own")) : scalar(false);
    }

    function node(wide) {
      if (++deep > 20) fail(phrase("lists in lists, too deep for a log"));
      const list = /^-(?: |$)/.test(rest()), found = list ? [] : object();
      for (skip(); at < all.length && column() === wide; skip()) {
        if (/^-(?: |$)/.test(rest()) !== list) break;
        if (list) {
          at++;
          const inner = column() + /^ */.exec(rest())[0].length;
          const mapped = /^ *(?:[\w-]+|"[^"\n]*"|'[^'\n]*') *:(?: |$)/.test(rest());
          if (mapped) at += inner - column();
          found.push(mapped ? node(inner) : value(wide));
        } else {
          const key = scalar(false);
          if (all[at] !== ":") fail(phrase("expected `key: value`"));
          at++;
          found[key] = value(wide);
        }
      }
      deep--;
      return found;
    }

    skip();
    if (/^---(?: |$)/.test(rest())) { at += 3; skip(); }
    const found = /[[{]/.test(all[at] ?? "") ? flow() : node(0);
    skip();
    if (at < all.length && rest() !== "...") fail(phrase("here begins something that is no part of a log"));
    return found;
  }

  const AMOUNT = /^[0-9]{1,6}(\.[0-9]{1,6})? ?(g|oz|m|yd)$/, LENGTH = /^[0-9]{1,6}(\.[0-9]{1,6})? ?(mm|cm|m|in|yd)$/;
  const DAY = /^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$/, MARK = /^[0-9a-f]{16}$/;
  const words = (said, most) => (typeof said === "string" && said.trim() ? said.trim().slice(0, most) : "");
  const count = (said, most) => { const number = Number(said); return Number.isInteger(number) && number >= 1 && number <= most ? number : null; };
  const over0 = (said) => { const number = typeof said === "string" && said.trim() ? Number(said) : NaN; return number > 0 && number <= 1000 ? number : null; };

  function usedOf(data) {
    const found = Object.create(null);
    for (const [yarn, said] of Object.entries(data && typeof data === "object" ? data : {}).slice(0, 200)) {
      if (typeof said === "string" && AMOUNT.test(said)) found[yarn] = said;
      else if (AMOUNT.test(said?.before) && AMOUNT.test(said?.after)) found[yarn] = { before: said.before, after: said.after };
    }
    return found;
  }

  function remarkOf(data) {
    const row = count(data?.row, 1e6), said = words(data?.said, 2000), stitches = Array.isArray(data?.stitches) ? data.stitches.map((one) => count(one, 1e5)) : [];
    if (!row || !said || !["trouble", "question", "praise"].includes(data.kind)) return null;
    return {
      row, said, kind: data.kind, piece: words(data.piece, 200) || null, side: ["RS", "WS"].includes(data.side) ? data.side : null,
      stitches: stitches.length === 2 && stitches.every(Boolean) ? [Math.min(...stitches), Math.max(...stitches)] : null, answered: words(data.answered, 2000),
    };
  }

  /** A log from a file's text. Raises Unreadable, with words for the knitter. `lost` says what was left out. */
  function read(source) {
    const data = parse(source);
    if (Array.isArray(data) || data["lintarsia-knit"] !== "1") throw new Unreadable(phrase("it does not begin with lintarsia-knit: 1, so it is no log of a test knit"));
    const of = words(data.pattern, 500) ? "pattern" : "chart", file = words(data[of], 500);
    if (!file) throw new Unreadable(phrase("it does not say which chart or pattern was knitted"));
    const gauge = data.gauge && typeof data.gauge === "object" ? { stitches: over0(data.gauge.stitches), rows: over0(data.gauge.rows), over: data.gauge.over, needle: LENGTH.test(data.gauge.needle) ? data.gauge.needle : "" } : null;
    const hours = typeof data.hours === "string" && data.hours ? Number(data.hours) : NaN, listed = Array.isArray(data.rows) ? data.rows.slice(0, 1000) : [];
    const rows = listed.map(remarkOf);
    return {
      of, file, size: words(data.size, 200) || null, fingerprint: MARK.test(data.fingerprint) ? data.fingerprint : "", knitter: words(data.knitter, 200),
      gauge: gauge?.stitches && gauge.rows && LENGTH.test(gauge.over) ? gauge : null, used: usedOf(data.used), hours: hours >= 0 && hours <= 1e4 ? hours : null,
      finished: DAY.test(data.finished) ? data.finished : "", rows: rows.filter(Boolean), remarks: words(data.remarks, 2000), site: data.site !== "false",
      suppress: Array.isArray(data.suppress) ? data.suppress.filter((one) => words(one?.rule, 100) && words(one?.justification, 2000)) : [], lost: rows.filter((one) => !one).length,
    };
  }

  return { read, Unreadable };
})();
