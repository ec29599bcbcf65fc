"""How grid/row-slip says what a row is against the same row in other sizes of a piece."""

from collections.abc import Sequence
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.rules.shared.rows_in_sizes import COUNTED, SlipInSize
from lintarsia.telling.counts import one_and_all, stitch_count
from lintarsia.telling.names import row_word

KEYS = {"copied": "doubled"}
# How often what is told was right where every second pattern had a slip: benchmarks/row_slips_sizes.py --confidence.
MOST, COUNTS, TWO, UNSURE = "nearly always", "3 times in 4", "nearly always", "2 times in 3"


class Other(NamedTuple):
    """Sizes with one chart, and the row there, the knitter's."""

    sizes: tuple[str, ...]
    row: int


def said_of(chart: Chart, slip: SlipInSize, others: Sequence[Other], sure: bool) -> str:
    """The row by its number, what it is against the others, and how often that is right."""
    word = row_word(chart)
    there = one_and_all([f"{', '.join(other.sizes)} ({word} {other.row})" for other in others])
    return f"{_what(chart, slip, there)}; {_how_surely(slip, sure)}"


def _what(chart: Chart, slip: SlipInSize, there: str) -> str:
    kind, row, by = slip.slip.kind, slip.slip.row, slip.slip.by
    name, word = chart.row_name(row), row_word(chart)
    match kind:
        case "swapped":
            return f"{name} and {word} {row + 1} have changed places against {there}"
        case "mirrored":
            return f"{name} is the other way round than in {there}: it looks mirrored"
        case "copied":
            return f"{name} is as the {word} beside it, and another in {there}: it seems doubled"
        case "doubled":
            return f"{name} is as {word} {row - 1}, which stands once in {there}: it seems doubled"
        case "left-out":
            return f"a {word} is missing {_gone(word, row)} that is there in {there}: it seems left out"
    way = "right" if by > 0 else "left"
    return f"{name} stands {stitch_count(abs(by))} further to the {way} than in {there}: it looks shifted"


def _gone(word: str, row: int) -> str:
    return f"below {word} 1" if row == 1 else f"between {word}s {row - 1} and {row}"


def _how_surely(slip: SlipInSize, sure: bool) -> str:
    if slip.gained is None:
        right = COUNTS if slip.slip.kind in COUNTED else MOST
        return f"such a guess was right {right} where every second pattern had a slip"
    which = "which of them has slipped is a guess by the picture"
    return f"{which}, right {TWO if sure else UNSURE} where every second pattern had a slip"
