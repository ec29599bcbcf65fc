"""pattern/missing-chart: every chart that a pattern names is there, readable, and inside the repository."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions

if TYPE_CHECKING:
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import About, PatternWork, SizeFault

Options = NoOptions
INFO = RuleInfo(
    name="pattern/missing-chart",
    level=Level.ERROR,
    summary="a chart that the pattern names cannot be used",
    why=(
        "A piece without its chart cannot be knitted, and nothing about it can be checked: its size, its yarn and its "
        "seams are all unknown."
    ),
    remedy="name the chart by its path from the pattern's own folder, and mend what keeps it from being read",
    keys={
        "not-there": "there is no such file",
        "unreadable": "the file holds no chart that can be read",
        "outside": "the path is absolute or leads out of the repository",
    },
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each piece and chart."""
    from lintarsia.pattern.work import SizeFault

    def judge(piece: "Piece", size: str) -> "Iterator[SizeFault]":
        said = piece.charts.get(size)
        if said is not None and work.charts[said].chart is None:
            file = work.charts[said]
            yield SizeFault(file.key, file.fault, work.place("pieces", piece.name, "chart", size), hint=file.hint)

    return work.each(judge)
