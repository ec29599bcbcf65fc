"""gauge/yarn-weight: a gauge or a needle outside the range that is usual for the yarn's weight."""

from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.measure import Length
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import YARN_WEIGHTS

Options = NoOptions
INFO = RuleInfo(
    name="gauge/yarn-weight",
    level=Level.WARNING,
    summary="the gauge or the needle is unusual for the weight of the yarn",
    why=(
        "A knitter who buys by weight will not get this gauge, or only with a fabric that is stiff or open. Mostly the "
        "weight or the gauge is a slip; sometimes the yarn is held double, which the pattern should then say."
    ),
    remedy="check weight, gauge and needle against each other; if they are meant so, say so in the pattern",
    keys={
        "gauge-outside": "the stitches of the gauge are not usual for the yarn's weight",
        "needle-outside": "the needle is not usual for the yarn's weight",
    },
    sources=(f"{YARN_WEIGHTS}: guidelines, not rules; lace is often worked on larger needles",),
    judges_by=frozenset({Basis.GAUGE}),
)


class Usual(NamedTuple):
    """What is usual for a weight: stitches in 4 in of plain fabric, needle in mm. None is no bound."""

    name: str
    fewest: int
    most: int
    thinnest: float
    thickest: float | None


# Craft Yarn Council, Standard Yarn Weight System. US needle sizes differ between makers: millimetres are the truth.
USUAL = (
    Usual("lace", 33, 40, 1.5, 2.25),
    Usual("super fine", 27, 32, 2.25, 3.25),
    Usual("fine", 23, 26, 3.25, 3.75),
    Usual("light", 21, 24, 3.75, 4.5),
    Usual("medium", 16, 20, 4.5, 5.5),
    Usual("bulky", 12, 15, 5.5, 8),
    Usual("super bulky", 7, 11, 8, 12.75),
    Usual("jumbo", 0, 6, 12.75, None),
)
LACE = 0
TEN_CM, FOUR_INCHES = Length(10, "cm"), Length(4, "in")


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """At most one finding of each key for each weight that the chart's colours are worked in, at the first such yarn.

    The table counts over 4 in. Knitters take 10 cm and 4 in for the same, so a metric gauge is judged over 10 cm.
    """
    chart = work.chart
    if "gauge" in chart.assumed:
        return
    for weight, yarn in _weights(chart).items():
        usual = USUAL[weight]
        what = f"weight {weight} ({usual.name}), {chart.yarns[yarn].name or yarn}"
        over = FOUR_INCHES if chart.gauge.over.imperial else TEN_CM
        stitches = over.mm / chart.gauge.stitch_mm
        if not usual.fewest - 0.5 <= stitches < usual.most + 0.5:
            usually = f"{usual.fewest} to {usual.most}" if usual.fewest else f"{usual.most} or fewer"
            message = f"the gauge has {stitches:.3g} stitches in {over}; {what}, usually has {usually}"
            region = chart.places.value("yarns", yarn, "weight")
            yield Finding("gauge-outside", message, region, pattern=f"gauge {weight}")
        yield from _needle(chart, weight, usual, what)


def _needle(chart: Chart, weight: int, usual: Usual, what: str) -> Iterator[Finding]:
    needle = chart.gauge.needle
    if needle is None:
        return
    thick = usual.thickest is not None and needle.mm > usual.thickest + 1e-9 and weight != LACE
    if needle.mm < usual.thinnest - 1e-9 or thick:
        usually = f"{usual.thinnest:g} to {usual.thickest:g} mm" if usual.thickest else f"{usual.thinnest:g} mm or more"
        message = f"the needle is {needle}; {what}, is usually worked on {usually}"
        region = chart.places.value("gauge", "needle")
        yield Finding("needle-outside", message, region, level=Level.NOTE, pattern=f"needle {weight}")


def _weights(chart: Chart) -> dict[int, str]:
    """Each weight among the yarns that the colours name, with the first yarn of it."""
    weights: dict[int, str] = {}
    for colour in chart.colours.values():
        yarn = chart.yarns.get(colour.yarn) if colour.yarn else None
        if yarn is not None and yarn.weight is not None and 0 <= yarn.weight < len(USUAL):
            weights.setdefault(yarn.weight, yarn.id)
    return weights
