"""The text of a chart file, as a careful person would write it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

_BARE = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:[ -][A-Za-z0-9]+)*")
_TAKEN = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null"})  # by YAML 1.1, in any case


@dataclass(frozen=True, slots=True)
class KeyEntry:
    symbol: str
    name: str
    shade: str


def chart_text(
    *,
    title: str,
    gauge: tuple[float, float, str],
    technique: str,
    worked: str,
    key: Sequence[KeyEntry],
    rows: Sequence[str],
    remark: str = "",
    sections: Sequence[str] = (),
) -> str:
    """A whole chart file; `rows` from the top line down, `gauge` as stitches, rows and the length they are over.
    `sections` are lines that stand before the chart."""
    lines = [f"# {line}" for line in remark.splitlines()]
    lines += [
        "lintarsia: 1",
        f"title: {scalar(title)}",
        f"worked: {worked}",
        f"technique: {technique}",
        f"gauge: {{stitches: {gauge[0]:g}, rows: {gauge[1]:g}, over: {gauge[2]}}}",
        "colours:",
    ]
    lines += [f'  {scalar(e.symbol)}: {{name: {scalar(e.name)}, shade: "{e.shade}"}}' for e in key]
    lines += sections
    lines.append("chart: |")
    lines += [f"  {row}" for row in rows]
    return "\n".join(lines) + "\n"


def scalar(text: str) -> str:
    """Text as a YAML scalar that every YAML version reads as that very text: bare if it is plain, else in quotes."""
    if _BARE.fullmatch(text) and text.lower() not in _TAKEN:
        return text
    return '"' + "".join(_escaped(character) for character in text) + '"'


def _escaped(character: str) -> str:
    if character in '"\\':
        return f"\\{character}"
    if character.isprintable():
        return character
    point = ord(character)
    return f"\\x{point:02x}" if point < 256 else f"\\u{point:04x}" if point < 65536 else f"\\U{point:08x}"
