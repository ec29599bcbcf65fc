"""knit/far-gauge: the gauge that was measured is near the one that the pattern states."""

from collections.abc import Iterator
from dataclasses import field
from typing import TYPE_CHECKING

from lintarsia.ground.values import dataclass
from lintarsia.result import Finding, Kind, Level, RuleInfo

if TYPE_CHECKING:
    from lintarsia.knits.work import KnitWork

INFO = RuleInfo(
    name="knit/far-gauge",
    level=Level.WARNING,
    summary="the gauge measured in a test knit is far from the one stated",
    why=(
        "A piece at another gauge is another size, and takes another length of yarn: its measurements say nothing of "
        "the pattern's. One that is far off is more often measured over another length, or before washing."
    ),
    remedy="measure again after washing, over the length stated; where it is right, the size is still to be tested",
    keys={"stitches": "stitches are far from those stated", "rows": "rows are far from those stated"},
    sources=("how far is far, 10 %, is a house value: about one size in most size tables",),
    subjects=(Kind.KNIT,),
)


@dataclass(frozen=True, slots=True)
class Options:
    most: float = field(default=0.10, metadata={"help": "how far off may be, as a share of the gauge stated"})


def check_knit(work: "KnitWork", options: Options) -> Iterator[Finding]:
    """A finding each for stitches and rows."""
    gauge, main = work.log.gauge, work.main
    if gauge is None or main is None or "gauge" in main.assumed:
        return
    stated = main.gauge
    sides = (("stitches", gauge.stitches, stated.stitch_mm), ("rows", gauge.rows, stated.row_mm))
    for what, measured, size in sides:
        expected = gauge.over.mm / size
        if abs(measured / expected - 1) > options.most:
            message = f"{measured:g} {what} to {gauge.over} were measured; the {work.log.of} states {expected:.3g}"
            yield Finding(what, message, work.log.places.value("gauge", what), pattern=f"{what} {measured:g}")
