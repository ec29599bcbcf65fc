"""A page of written rows: heading, key, how to read it, the abbreviations it uses, the rows. Formats print it."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lintarsia.chart import HOUSE_RECKONING, Chart, Side, Worked
from lintarsia.chart.supplynames import supply_number
from lintarsia.telling.catching import catching_words
from lintarsia.telling.names import row_word
from lintarsia.written.countinglines import counting_lines
from lintarsia.written.order import ColourSupply
from lintarsia.written.rowwords import RowWords
from lintarsia.written.sewn import sewn_lines
from lintarsia.written.style import HOUSE_STYLE, Style
from lintarsia.written.symbols import written_yarn
from lintarsia.written.writer import write_rows

if TYPE_CHECKING:
    from lintarsia.planning.model import Plan

# A house list: the usual English ones, written down from memory.
ABBREVIATIONS: Mapping[str, str] = {
    "beg": "beginning",
    "BO": "bind off",
    "CO": "cast on",
    "dec": "decrease",
    "inc": "increase",
    "k": "knit",
    "k2tog": "knit 2 together (leans right)",
    "p": "purl",
    "p2tog": "purl 2 together (leans right on the right side)",
    "rem": "remaining",
    "rep": "repeat",
    "RS": "right side",
    "ssk": "slip, slip, knit (leans left)",
    "ssp": "slip, slip, purl (leans left on the right side)",
    "st": "stitch",
    "sts": "stitches",
    "WS": "wrong side",
}
_KIND = re.compile(r"\b([kp])[0-9]")
_TOGETHER = re.compile(r"\b([kp])([0-9]+)tog\b")  # a crown takes 3 and more into 1
_WORDS = {"k": "knit", "p": "purl"}
_USED = re.compile(r"[A-Za-z]+(?:2tog)?")


@dataclass(frozen=True, slots=True)
class RowsPage:
    """`key`: (symbol as the rows write it, colour name, shade). `supplies`: (name, colour name, what it is), and
    `supplies_are` says what their lengths hold. `sewn` is duplicate stitch: (symbol, where)."""

    title: str
    gauge: str
    gauge_word: str  # "tension" is what Britain calls it (common practice)
    reading: tuple[str, ...]
    key: tuple[tuple[str, str, str], ...]
    supplies: tuple[tuple[str, str, str], ...]
    supplies_are: str
    abbreviations: tuple[tuple[str, str], ...]
    rows: tuple[RowWords, ...]
    sewn: tuple[tuple[str, str], ...] = ()


def rows_page(
    chart: Chart,
    *,
    plan: "Plan | None" = None,
    first: int = 1,
    last: int | None = None,
    style: Style = HOUSE_STYLE,
    allowance: float = HOUSE_RECKONING.allowance,
) -> RowsPage:
    """The page for the rows `first` to `last`; with a plan it names supplies, in lengths to wind.

    `allowance` is the share to spare in those. Raises ValueError for rows not there.
    """
    rows = write_rows(chart, plan=plan, first=first, last=last, style=style)
    low, high = min(r.rows[0] for r in rows), max(r.rows[-1] for r in rows)
    shown = set("".join(chart.grid.rows[low - 1 : high]))
    shown |= {patch.colour for patch in chart.duplicate if low <= patch.row <= high}
    key = [
        (written_yarn(ColourSupply(symbol)), colour.name, colour.shade)
        for symbol, colour in chart.colours.items()
        if symbol in shown
    ]
    return RowsPage(
        title=chart.title,
        gauge=gauge_words(chart),
        gauge_word=style.terms.gauge,
        reading=tuple(_reading(chart, rows)),
        key=tuple(key),
        supplies=_supplies(chart, plan, rows, allowance) if plan else (),
        supplies_are=f"to wind, tails and {allowance:.0%} to spare included",
        abbreviations=abbreviations_of(rows),
        rows=rows,
        sewn=tuple(sewn_lines(chart, low, high)),
    )


def gauge_words(chart: Chart) -> str:
    """`22 sts and 30 rows to 10 cm on 4 mm needles`."""
    gauge = chart.gauge
    needle = f" on {gauge.needle} needles" if gauge.needle else ""
    return f"{gauge.stitches:g} sts and {gauge.rows:g} rows to {gauge.over}{needle}"


def _reading(chart: Chart, rows: tuple[RowWords, ...]) -> list[str]:
    if chart.worked is Worked.ROUND:
        how = "knitted throughout" if chart.texture is None else "knitted and purled as the words say"
        said = [f"Worked in rounds, {how}, right to left on the chart."]
    else:
        side = f"{chart.first_row.words.replace(' ', '-')} row ({chart.first_row})"
        said = [
            f"Worked back and forth; row 1 is a {side}.",
            "RS rows are knitted, right to left on the chart; WS rows are purled, left to right."
            if chart.texture is None
            else "RS rows are worked right to left on the chart, WS rows left to right; k and p are as you work them.",
        ]
        if chart.worked is Worked.TURNED:
            said[0] = f"A tube, worked back and forth and joined at each turn; row 1 is a {side}."
    said.append(f"The count in brackets is of the stitches after the {row_word(chart)}.")
    if chart.shaping:
        said += counting_lines([row.said for row in rows])
    if chart.divide:
        said.append("The right and the left side of an opening are those of the chart, as the work's right side shows.")
        said.append("Where both are worked together, the count is of both.")
    if caught := catching_words(chart):
        said.append(f"{caught.capitalize()}.")
    if chart.repeat:
        (first_st, last_st), (first_row, last_row) = chart.repeat.stitches, chart.repeat.rows
        said.append(f"The repeat is stitches {first_st}–{last_st} of {row_word(chart)}s {first_row}–{last_row}.")
    return said


def _supplies(
    chart: Chart, plan: "Plan", rows: tuple[RowWords, ...], allowance: float
) -> tuple[tuple[str, str, str], ...]:
    from lintarsia.telling.lengths import is_imperial, wound_length

    wanted = {row for line in rows for row in line.rows}
    lines = []
    for supply in plan.supplies:
        if any(supply.first_row <= row <= supply.last_row for row in wanted):
            colour = chart.colours.get(supply.colour)
            number = supply_number(supply.colour, supply.id)
            length = wound_length(supply.metres * (1 + allowance), is_imperial(chart))
            name = colour.name if colour else supply.colour
            holder = supply.holder if supply.wound else "on the ball"
            lines.append((written_yarn(ColourSupply(supply.colour, number)), name, f"{holder}, {length}"))
    return tuple(lines)


def abbreviations_of(rows: tuple[RowWords, ...]) -> tuple[tuple[str, str], ...]:
    """Those that the rows use, with what they are short for."""
    used = {word for row in rows for word in _USED.findall(f"{row.label} {row.text}")}
    kinds = {"p" if row.side is Side.WS and not row.round else "k" for row in rows}
    kinds |= {kind for row in rows for kind in _KIND.findall(row.words)}
    known = {short: full for short, full in ABBREVIATIONS.items() if short in (kinds if short in "kp" else used)}
    together = sorted(set(_TOGETHER.findall(" ".join(row.words for row in rows))))
    more = {f"{k}{n}tog": f"{_WORDS[k]} {n} together" for k, n in together if f"{k}{n}tog" not in ABBREVIATIONS}
    return tuple(sorted((known | more).items(), key=lambda line: line[0].casefold()))
