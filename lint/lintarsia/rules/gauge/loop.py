"""gauge/loop: a measured yarn per stitch that no stitch of this gauge can hold."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.citing import MUNDEN

INFO = RuleInfo(
    name="gauge/loop",
    level=Level.WARNING,
    summary="the yarn measured in one stitch does not go with the gauge",
    why=(
        "Every length to wind and every ball to buy is so many times the yarn in one stitch. A slip in it, such as "
        "centimetres for millimetres, makes all of them wrong alike, and nothing else shows it."
    ),
    remedy="unravel a counted stretch of the swatch, measure it and divide; or leave `loop` out to have it worked out",
    keys={
        "too-long": "more yarn than a stitch of this width takes",
        "too-short": "less yarn than a stitch of this width takes",
    },
    sources=(
        f"{MUNDEN}: up to 4.2 times the stitch width in plain fabric, fully relaxed",
        "3.8 times, dry-relaxed: a house value, after his factors",
        "the room left on both sides is a house value",
    ),
    judges_by=frozenset({Basis.GAUGE}),
)


@dataclass(frozen=True, slots=True)
class Options:
    least: float = field(default=2.5, metadata={"help": "least yarn in a stitch, in widths of the stitch"})
    most: float = field(default=6.5, metadata={"help": "most yarn in a stitch, in widths of the stitch"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding, at `gauge: loop`."""
    gauge = work.chart.gauge
    if gauge.loop is None or "gauge" in work.chart.assumed:
        return
    widths = gauge.loop.mm / gauge.stitch_mm
    if options.least <= widths <= options.most:
        return
    message = (
        f"the loop is {gauge.loop}, {widths:.1f} times the width of a stitch; "
        f"expected about 4 times, {4.1 * gauge.stitch_mm:.1f} mm"
    )
    key = "too-long" if widths > options.most else "too-short"
    yield Finding(key, message, work.chart.places.value("gauge", "loop"), pattern=key)
