"""What yarn and gauge of several knitters say of the yarn in a stitch: the `loop` to plan with, and how sure that is.

For plain fabrics the yarn in a stitch is a constant times the stitch's width, whatever the gauge (D. L. Munden, "The
Geometry and Dimensional Properties of Plain-Knit Fabrics", J. Textile Institute 50 (1959) T448). So each knitter's yarn
is solved for her constant at her own gauge, and the constants, not the lengths, are compared; times the width stated
they are the loop at the gauge stated.
"""

from collections.abc import Mapping, Sequence
from statistics import fmean, median, stdev
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.ground.values import dataclass
from lintarsia.knits.plannedyarn import MetreTerms, Scale, balls_of, constant_stated, terms_of, width_mm
from lintarsia.knits.work import KnitWork
from lintarsia.pattern.work import PatternWork

FEWEST_TO_COMPARE = 3
"""With two knitters nobody can say which of them is off."""

FAR = 3.5
"""Modified z-scores beyond this are outliers: B. Iglewicz and D. C. Hoaglin, "How to Detect and Handle Outliers", ASQC
1993; the score is 0.6745 times the distance from the median over the median distance."""

LEAST_SPREAD = 0.01
"""Of the median: nearer than this scales and rulers do not tell two knitters apart, however alike the others are. A
house value."""


class Measured(NamedTuple):
    """One knitter's: her constant, and what the yarns that she weighed came to, in metres."""

    knitter: str
    constant: float
    used: float
    terms: MetreTerms  # of all yarns weighed together, at her own gauge
    gauge: bool  # whether she measured hers; without, the one stated is taken for it


@dataclass(frozen=True, slots=True)
class Outlier:
    """A knitter whose yarn is far from the others'. `times`: hers over the median."""

    knitter: str
    times: float
    file: str


@dataclass(frozen=True, slots=True)
class NewLoop:
    """A chart's loop as it is planned by now and as the test knits have it, and its spread over knitters, mm."""

    chart: str
    stated: bool
    was_mm: float
    mm: float
    spread_mm: float | None


@dataclass(frozen=True, slots=True)
class Calibration:
    """`measured` are those that count, `outliers` those left out. `spread` is the standard deviation of the constant
    over knitters, None for a single one. `off_before` and `off_after` are how far the plan is from what was used, on
    average, as a share: at each knitter's own gauge, which is not the plan's fault; and after, each one's yarn is
    foretold from the others'.
    """

    measured: tuple[Measured, ...]
    outliers: tuple[Outlier, ...]
    constant: float
    spread: float | None
    loops: tuple[NewLoop, ...]
    off_before: float
    off_after: float | None


def measured(work: KnitWork) -> Measured | None:
    """What a finished knit says; None where it weighed no yarn, or yarn that cannot be."""
    size, knitted, main = work.size, work.knitted, work.main
    if not work.log.finished or size is None or knitted is None or main is None:
        return None
    balls = balls_of(knitted)
    used = {y: m for y, u in work.log.used.items() if y in balls and (m := balls[y].metres(u.spent)) and m > 0}
    hers = terms_of(knitted, size, scale_of(work))
    yarns = [yarn for yarn in used if yarn in hers]
    total, own = sum(used[yarn] for yarn in yarns), _together(hers, yarns)
    if not own.stitches or total <= own.rest:
        return None
    constant = (total - own.rest) / own.stitches
    return Measured(work.log.knitter, constant, total, own, work.log.gauge is not None)


def scale_of(work: KnitWork) -> Scale:
    """Her stitches against those stated; as stated where she measured none."""
    gauge, main = work.log.gauge, work.main
    if gauge is None or main is None:
        return Scale()
    return Scale(gauge.stitch_mm / main.gauge.stitch_mm, gauge.row_mm / main.gauge.row_mm)


def _together(terms: Mapping[str, MetreTerms], yarns: Sequence[str]) -> MetreTerms:
    return MetreTerms(sum(terms[yarn].rest for yarn in yarns), sum(terms[yarn].stitches for yarn in yarns))


def outliers_among(values: Mapping[str, float]) -> dict[str, float]:
    """Those far from the rest, each as so many times the median; none among fewer than three."""
    if len(values) < FEWEST_TO_COMPARE:
        return {}
    middle = median(values.values())
    spread = max(median(abs(value - middle) for value in values.values()), LEAST_SPREAD * abs(middle))
    if not spread:
        return {}
    return {name: value / middle for name, value in values.items() if 0.6745 * abs(value - middle) / spread > FAR}


def calibrate(now: PatternWork, works: Sequence[KnitWork]) -> Calibration | None:
    """From the logs of one pattern, all sizes together; None where none of them has weighed what it used.

    Each is held against the plan of what was knitted; `now` has the charts as they are, which are to state the loop.
    """
    charts = [file.chart for file in now.charts.values() if file.chart is not None]
    found = {work.log.path: one for work in works if (one := measured(work)) is not None}
    if not found or not charts:
        return None
    far = outliers_among({file: one.constant for file, one in found.items()})
    kept = tuple(one for file, one in found.items() if file not in far)
    constants = [one.constant for one in kept]
    mean, spread = fmean(constants), stdev(constants) if len(constants) > 1 else None
    by_now = constant_stated(max(charts, key=lambda chart: chart.grid.width * chart.grid.height))
    after = [abs(_foretold(kept, i) / one.used - 1) for i, one in enumerate(kept)] if len(kept) > 1 else None
    return Calibration(
        measured=kept,
        outliers=tuple(Outlier(found[file].knitter, times, file) for file, times in far.items()),
        constant=mean,
        spread=spread,
        loops=tuple(_loop(chart, mean, spread) for chart in charts),
        off_before=fmean(abs(one.terms.at(by_now) / one.used - 1) for one in kept),
        off_after=None if after is None else fmean(after),
    )


def _foretold(kept: Sequence[Measured], index: int) -> float:
    """A knitter's yarn by the constants of the others: by her own it would be right whatever it is."""
    others = [one.constant for i, one in enumerate(kept) if i != index]
    return kept[index].terms.at(fmean(others))


def _loop(chart: Chart, constant: float, spread: float | None) -> NewLoop:
    width = width_mm(chart)
    return NewLoop(
        chart=chart.path,
        stated=chart.gauge.loop is not None,
        was_mm=constant_stated(chart) * width,
        mm=constant * width,
        spread_mm=None if spread is None else spread * width,
    )
