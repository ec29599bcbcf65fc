"""supply/row-limit: rows that need more supplies than hands can manage."""

from collections.abc import Iterator
from dataclasses import field
from enum import StrEnum

import numpy as np

from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import spans


class Counted(StrEnum):
    WORKED = "worked"
    HANGING = "hanging"


@dataclass(frozen=True, slots=True)
class Options:
    counted: Counted = field(
        default=Counted.WORKED,
        metadata={"help": "`worked`: the supplies that a row works with; `hanging`: those that rest in it too"},
    )


INFO = RuleInfo(
    name="supply/row-limit",
    level=Level.WARNING,
    summary="rows need more supplies than the limit",
    why=(
        "Every supply hangs from the needle and has to be laid out in order before the row. Beyond a handful the yarns "
        "spend more time being untangled than being knitted; many full balls in one row cannot be handled at all."
    ),
    remedy=(
        "join blocks of one colour, strand or duplicate-stitch the small ones, or raise `limits: supplies` if your "
        "knitters manage more"
    ),
    keys={"too-many-supplies": "rows work with more supplies than the limit"},
    sources=("many full balls in one row are awkward to handle: common practice; the limit of 8 is a house value",),
    judges_by=frozenset({Basis.SYMBOLS}),
    subjects=(Kind.CHART, Kind.PATTERN),
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for the chart, at its fullest row. An error where the chart or the settings state the limit: the
    house's own is advice.
    """
    chart, limit, threads = work.chart, work.bounds.supplies, work.plan.threads
    numbers = threads.hangs if options.counted is Counted.HANGING else threads.needs
    over = np.flatnonzero(numbers > limit) + 1
    if not len(over):
        return
    row = int(np.argmax(numbers)) + 1
    text = chart.grid.rows[row - 1]
    stated = chart.limits.supplies is not None or work.house.supplies is not None
    level = Level.ERROR if stated else None
    needed = _needed(row_word(chart), over.tolist(), row, int(numbers[row - 1]), options.counted)
    message = f"{needed}; {_allowed(limit)}"
    yield Finding("too-many-supplies", message, chart.places.row(row), row, (1, len(text)), level, pattern=text)


check_pattern = on_pieces(INFO.name, check, numbers=True)


def _needed(word: str, rows: list[int], fullest: int, most: int, counted: Counted) -> str:
    """`row 12 needs 9 supplies`; `rows 7–16 and 23 need up to 9 supplies, round 12 most`."""
    many = len(rows) > 1
    verb = {Counted.WORKED: ("needs", "need"), Counted.HANGING: ("has", "have")}[counted][many]
    what = f"{verb} {'up to ' * many}{most} supplies{' hanging' * (counted is Counted.HANGING)}"
    return f"{word}{'s' * many} {spans(rows)} {what}" + (f", {word} {fullest} first" if many else "")


def _allowed(limit: int) -> str:
    return f"at most {limit} {'is' if limit == 1 else 'are'} allowed"
