"""gauge/stitch-size: a gauge whose stitches are finer or coarser than what is knitted by hand or machine."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Chart, Gauge
from lintarsia.chart.measure import Length
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.citing import YARN_WEIGHTS

INFO = RuleInfo(
    name="gauge/stitch-size",
    level=Level.WARNING,
    summary="the gauge makes stitches of a size that is hardly ever knitted",
    why=(
        "Every length in the report is worked out from the gauge: floats, tails, the yarn to wind and to buy. Where it "
        "is counted over the wrong length, 10 mm for 10 cm say, all are wrong alike, and each looks likely by itself."
    ),
    remedy="check the length that the gauge is counted over; mostly it is 10 cm or 4 in",
    keys={
        "too-fine": "stitches finer than those of lace and of fine machines",
        "too-coarse": "stitches coarser than those of the thickest needles, or of arms",
    },
    sources=(
        f"{YARN_WEIGHTS}: lace has up to 40 stitches in 4 in, 2.5 mm each",
        "stitches of 1 mm in the finest hand knitting, of 5 cm in knitting on one's arms: common practice",
    ),
    judges_by=frozenset({Basis.GAUGE}),
)


@dataclass(frozen=True, slots=True)
class Options:
    least: Length = field(default=Length(1, "mm"), metadata={"help": "narrowest stitch"})
    most: Length = field(default=Length(6, "cm"), metadata={"help": "widest stitch"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding, at the length that the gauge is counted over.

    None where a yarn's weight is stated, since gauge/yarn-weight holds the gauge to that more closely; none where
    file/schema has called the gauge impossible.
    """
    chart, gauge = work.chart, work.chart.gauge
    size = gauge.stitch_mm
    if options.least.mm <= size <= options.most.mm or "gauge" in chart.assumed or not gauge.possible:
        return
    if any(yarn.weight is not None for yarn in map(chart.yarns.get, _yarns(chart)) if yarn is not None):
        return
    message = f"by this gauge a stitch is {size:.3g} mm wide; expected {options.least} to {options.most}"
    key = "too-fine" if size < options.least.mm else "too-coarse"
    yield Finding(key, message, chart.places.value("gauge", "over"), remedy=_remedy(gauge, options), pattern=key)


def _yarns(chart: Chart) -> Iterator[str]:
    return (colour.yarn for colour in chart.colours.values() if colour.yarn is not None)


def _remedy(gauge: Gauge, options: Options) -> str | None:
    """The usual slip, where it is one: millimetres for centimetres. None: the rule's own remedy."""
    over = gauge.over
    if over.unit != "mm" or not options.least.mm <= 10 * gauge.stitch_mm <= options.most.mm:
        return None
    meant = Length(over.value, "cm")
    return f"count the gauge over {meant}, if that is meant: a stitch is then {10 * gauge.stitch_mm:.3g} mm wide"
