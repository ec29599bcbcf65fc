// The log of a test knit as a file, *.knit.yaml. It is read back by logread.js.
globalThis.lintarsiaLogFile = (() => {
  "use strict";
  const whole = (text) => text.toWellFormed?.() ?? text.replace(/[\ud800-\udfff]/gu, "�");
  const escape = (char) => `\\u${char.charCodeAt(0).toString(16).padStart(4, "0")}`;
  /** Text as YAML and JSON both have it in double quotes; what neither prints is escaped. */
  const quoted = (text) => JSON.stringify(whole(String(text))).replace(/[\u007f-\u009f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufffe\uffff]/g, escape);
  const braces = (pairs) => `{${pairs.filter(([, value]) => value !== null && value !== undefined && value !== "").map(([key, value]) => `${key}: ${value}`).join(", ")}}`;
  const plain = (number) => String(Number(Number(number).toFixed(3)));
  const text = (value) => (value ? quoted(value) : null);

  function gaugeLine({ stitches, rows, over, needle }) {
    return braces([["stitches", plain(stitches)], ["rows", plain(rows)], ["over", over], ["needle", needle]]);
  }

  function remarkLine({ piece, row, side, stitches, kind, said, answered }) {
    const which = stitches ? `[${stitches.join(", ")}]` : null;
    return braces([["piece", text(piece)], ["row", row], ["side", side], ["stitches", which], ["kind", kind], ["said", text(said)], ["answered", text(answered)]]);
  }

  const amount = (used) => (typeof used === "string" ? used : braces([["before", used.before], ["after", used.after]]));

  /** The file's text. Keys without a value are left out. */
  function write(log) {
    const name = log.file.split("/").at(-1), lines = [`# A test knit. Put this file beside ${name.replace(/[^\w .-]/g, "_")}.`, "lintarsia-knit: 1"];
    const put = (key, value) => { if (value !== null && value !== undefined && value !== "") lines.push(`${key}: ${value}`); };
    put(log.of, quoted(name));
    put("size", text(log.size));
    put("fingerprint", text(log.fingerprint));
    put("knitter", text(log.knitter));
    if (log.gauge?.stitches && log.gauge?.rows) put("gauge", gaugeLine(log.gauge));
    const used = Object.entries(log.used ?? {}).filter(([, value]) => typeof value === "string" || (value?.before && value?.after));
    if (used.length) lines.push("used:", ...used.map(([yarn, value]) => `  ${quoted(yarn)}: ${amount(value)}`));
    if (typeof log.hours === "number") put("hours", plain(log.hours));
    put("finished", log.finished);
    if (log.rows?.length) lines.push("rows:", ...log.rows.map((one) => `  - ${remarkLine(one)}`));
    put("remarks", text(log.remarks));
    if (log.site === false) put("site", "false");
    if (log.suppress?.length) lines.push("suppress:", ...log.suppress.map((one) => `  - ${braces([["rule", text(one.rule)], ["justification", text(one.justification)]])}`));
    return `${lines.join("\n")}\n`;
  }

  return { write };
})();
