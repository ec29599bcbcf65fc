"""The yarn that a plan says for a size, in total and as a sum of two terms: what follows the stitches' own yarn, and
all else. Metres."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from lintarsia.chart import Chart, Gauge, Reckoning, Technique, Yarn
from lintarsia.chart.measure import Length, Mass
from lintarsia.knits.model import Amount
from lintarsia.pattern.model import BoughtYarn
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.edgework import edge_work
from lintarsia.planning.model import Plan
from lintarsia.planning.rates import Rates, loop_mm, rates_of
from lintarsia.planning.yarn import duplicate_mm


class Ball(NamedTuple):
    """A ball of a yarn, as far as it is described."""

    name: str
    length: Length | None
    mass: Mass | None

    def metres(self, amount: Amount | None) -> float | None:
        """An amount in metres; None for a mass where a ball's length and mass are not both stated."""
        if amount is None or isinstance(amount, Length):
            return None if amount is None else amount.metres
        if self.length is None or self.mass is None or not self.mass.grams:
            return None
        return amount.grams / self.mass.grams * self.length.metres


def balls_of(knitted: PatternWork) -> dict[str, Ball]:
    """Every yarn of a pattern: as the pattern describes it, and where it is silent as a chart does."""
    found: dict[str, Ball] = {}
    charts = [file.chart for file in knitted.charts.values() if file.chart is not None]
    described: list[BoughtYarn | Yarn] = [yarn for chart in charts for yarn in chart.yarns.values()]
    for yarn in [*knitted.pattern.yarns.values(), *described]:
        name = yarn.id
        known = found.get(name, Ball("", None, None))
        found[name] = Ball(known.name or yarn.name, known.length or yarn.length, known.mass or yarn.mass)
    return {name: ball._replace(name=ball.name or name) for name, ball in found.items()}


class MetreTerms(NamedTuple):
    """Metres of a yarn: `rest` (tails, carries, floats, edges), and `stitches` for each unit of the constant by which
    the width of a stitch is multiplied to get its yarn."""

    rest: float
    stitches: float

    def at(self, constant: float) -> float:
        return self.rest + constant * self.stitches


class Scale(NamedTuple):
    """How much wider and higher the stitches of somebody's knitting are than those stated."""

    wide: float = 1.0
    high: float = 1.0


AS_STATED = Scale()


def planned_metres(knitted: PatternWork, size: str) -> dict[str, float]:
    """By yarn, what the plans of all pieces say, each counted as often as it is knitted."""
    found: dict[str, float] = {}
    for chart, plan, reckoned, times in _pieces(knitted, size):
        per = rates_of(chart, reckoned)
        for yarn, mm in _by_yarn(chart, plan, per).items():
            found[yarn] = found.get(yarn, 0.0) + times * mm / 1000
    return found


def terms_of(knitted: PatternWork, size: str, scale: Scale = AS_STATED) -> dict[str, MetreTerms]:
    """By yarn, at somebody's gauge. The plan stays that of the gauge stated: she follows the same sheet."""
    found: dict[str, MetreTerms] = {}
    for chart, plan, reckoned, times in _pieces(knitted, size):
        per = rates_of(replace(chart, gauge=_scaled(chart.gauge, scale)), reckoned)
        bare = _by_yarn(chart, plan, replace(per, loop=0.0))
        whole = _by_yarn(chart, plan, replace(per, loop=width_mm(chart) * scale.wide * chart.gauge.share))
        for yarn, rest in bare.items():
            known = found.get(yarn, MetreTerms(0.0, 0.0))
            more = MetreTerms(times * rest / 1000, times * (whole[yarn] - rest) / 1000)
            found[yarn] = MetreTerms(known.rest + more.rest, known.stitches + more.stitches)
    return found


def width_mm(chart: Chart) -> float:
    """The width that a stitch's yarn is so many times of: the stranded one in a chart that is stranded throughout."""
    return chart.gauge.float_stitch_mm if chart.technique is Technique.STRANDED else chart.gauge.stitch_mm


def constant_stated(chart: Chart) -> float:
    """Yarn in a stitch over its width, as the chart is planned by now."""
    return loop_mm(chart.gauge, chart.technique) / chart.gauge.share / width_mm(chart)


class _Piece(NamedTuple):
    chart: Chart
    plan: Plan
    reckoning: Reckoning
    times: int


def _pieces(knitted: PatternWork, size: str) -> Iterator[_Piece]:
    for piece in knitted.pattern.pieces.values():
        laid = knitted.laid(piece, size)
        if laid is not None:
            reckoned = knitted.reckoning_of(piece, size)
            yield _Piece(laid.chart, knitted.plan(piece, size), reckoned, piece.knitted(size))


def _by_yarn(chart: Chart, plan: Plan, per: Rates) -> dict[str, float]:
    """Millimetres; colours that name no yarn are left out, since nobody can say what was used of them."""
    threads = plan.threads
    mm = threads.supply_mm(per, *edge_work(chart, threads))
    by_code = np.bincount(threads.runs.colour[threads.first], mm, len(chart.grid.symbols))
    by_colour = {symbol: float(by_code[code]) for code, symbol in enumerate(chart.grid.symbols)}
    for symbol, sewn in duplicate_mm(chart, per).items():
        by_colour[symbol] = by_colour.get(symbol, 0.0) + sewn
    found: dict[str, float] = {}
    for symbol, length in by_colour.items():
        yarn = chart.colours[symbol].yarn if symbol in chart.colours else None
        if yarn and length:
            found[yarn] = found.get(yarn, 0.0) + length
    return found


def _scaled(gauge: Gauge, scale: Scale) -> Gauge:
    """The gauge at which stitches are so much wider and higher; its loop is left to whoever asks."""
    stranded = gauge.float_gauge
    if stranded is not None:
        stranded = replace(stranded, stitches=stranded.stitches / scale.wide, rows=stranded.rows / scale.high)
    stitches, rows = gauge.stitches / scale.wide, gauge.rows / scale.high
    return replace(gauge, stitches=stitches, rows=rows, loop=None, float_gauge=stranded)
