"""gauge/proportion: a gauge whose stitches are taller than wide, or far too flat."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Chart, Technique
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, Region, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.citing import MUNDEN

INFO = RuleInfo(
    name="gauge/proportion",
    level=Level.WARNING,
    summary="the gauge makes stitches of an unlikely shape",
    why=(
        "Plain stitches are wider than tall: there are more rows than stitches to the same length. A gauge that says "
        "otherwise is mostly one with its two numbers exchanged, and the picture comes out squashed or stretched."
    ),
    remedy="measure the swatch again, washed and dry, and check which number is which",
    keys={
        "tall-stitches": "as many stitches as rows, or more",
        "flat-stitches": "far more rows than stitches",
    },
    sources=(
        f"{MUNDEN}: courses to wales about 1.3 in plain knitting",
        "22 stitches to 30 rows is typical; stranded fabric is squarer: common practice",
    ),
    judges_by=frozenset({Basis.GAUGE}),
)


@dataclass(frozen=True, slots=True)
class Options:
    least: float = field(default=1.0, metadata={"help": "rows to a stitch that plain fabric must have more of"})
    least_stranded: float = field(default=0.9, metadata={"help": "rows to a stitch that stranded fabric must have"})
    most: float = field(default=2.1, metadata={"help": "most rows to a stitch; garter stitch has about 2"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding, at the gauge's rows."""
    chart, gauge = work.chart, work.chart.gauge
    if "gauge" in chart.assumed:
        return
    ratio = gauge.rows / gauge.stitches
    stranded = chart.technique is Technique.STRANDED
    low = (ratio < options.least_stranded) if stranded else (ratio <= options.least)
    if not low and ratio <= options.most:
        return
    found = f"the gauge has {gauge.rows:g} rows to {gauge.stitches:g} stitches"
    if low:
        shape = "square" if ratio == 1 else "taller than wide"
        if stranded:
            expected = f"stranded fabric has at least {options.least_stranded:g} rows to a stitch"
        elif options.least == 1:
            expected = "plain fabric has more rows than stitches"
        else:
            expected = f"plain fabric has more than {options.least:g} rows to a stitch"
        message = f"{found}, so its stitches are {shape}; {expected}"
        yield Finding("tall-stitches", message, _place(chart), pattern=f"{gauge.rows:g}:{gauge.stitches:g}")
    else:
        message = f"{found}, so its stitches are very flat; expected at most {options.most:g} rows to a stitch"
        yield Finding("flat-stitches", message, _place(chart), pattern=f"{gauge.rows:g}:{gauge.stitches:g}")


def _place(chart: Chart) -> Region:
    """The gauge's rows. Asked for only when there is something to say: places are worked out at the first question."""
    return chart.places.value("gauge", "rows")
