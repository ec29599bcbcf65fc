"""Lengths in words, in the units of the chart's own gauge: one rule of rounding for each thing that is told.

Yarn that is used or needed is told to the nearest (`yarn_length`), yarn that is to be wound is rounded up to what one
measures off at a table (`wound_length`), distances on the fabric to a tenth (`fabric_length`). What programs read has
more figures and is rounded nowhere else.
"""

from math import ceil

from lintarsia.chart import Chart
from lintarsia.chart.measure import MM_PER
from lintarsia.telling.counts import count
from lintarsia.telling.languages import in_figures, phrase

METRES_PER_YARD = MM_PER["yd"] / MM_PER["m"]


def is_imperial(chart: Chart) -> bool:
    """Whether the chart's own gauge is over inches or yards."""
    return chart.gauge.over.imperial


def yarn_length(metres: float, imperial: bool) -> str:
    """`612 m`, `5.4 m`, `58 cm`; `669 yd`, `5.9 yd`, `23 in`: to the nearest."""
    if imperial:
        yards = metres / METRES_PER_YARD
        return _measured(yards, "yd") if yards >= 1 else f"{yards * 36:.0f} {phrase('in')}"
    return _measured(metres, "m") if metres >= 0.995 else f"{metres * 100:.0f} cm"


def _measured(value: float, unit: str) -> str:
    return f"{in_figures(f'{value:,.0f}' if value >= 99.95 else f'{value:.1f}')} {phrase(unit)}"


def yarn_lengths(metres: tuple[float, float], imperial: bool) -> tuple[str, str]:
    """What there is and what is needed, or the like: to a hundredth where to the nearest they would read the same."""
    one, other = (yarn_length(each, imperial) for each in metres)
    if one != other or metres[0] == metres[1]:
        return one, other
    per, unit = (METRES_PER_YARD, "yd") if imperial else (1.0, "m")
    one, other = (f"{in_figures(f'{each / per:,.2f}')} {phrase(unit)}" for each in metres)
    return one, other


def yarn_in(chart: Chart, metres: float) -> str:
    """`yarn_length` in the units of the chart's gauge."""
    return yarn_length(metres, is_imperial(chart))


def wound_length(metres: float, imperial: bool) -> str:
    """`wound_metres` in words: rounded up to what one measures off at a table, so that there is always enough."""
    units, step, unit = _steps_wound(metres, imperial)
    if unit in ("cm", "in"):
        return f"{units * step:.0f} {phrase(unit)}"
    return f"{in_figures(f'{units * step:,.{2 if imperial else 1}f}')} {phrase(unit)}"


def wound_metres(metres: float, imperial: bool) -> float:
    """What is measured off to have `metres`: to 5 cm below a metre, 10 cm below ten, half a metre above; to 2 in, a
    quarter and half a yard likewise."""
    units, step, unit = _steps_wound(metres, imperial)
    return units * step * MM_PER[unit] / MM_PER["m"]


def _steps_wound(metres: float, imperial: bool) -> tuple[int, float, str]:
    """How many steps of which length, and its unit."""
    large, steps, small, many, unit = ("yd", (0.25, 0.5), 2, 36, "in") if imperial else ("m", (0.1, 0.5), 5, 100, "cm")
    value = metres * MM_PER["m"] / MM_PER[large]
    if value <= 1 - small / many:
        return ceil(value * many / small - 1e-9), small, unit
    step = steps[0] if value <= 10 else steps[1]
    return ceil(value / step - 1e-9), step, large


def fabric_length(mm: float, imperial: bool) -> str:
    """A distance on the fabric: `2.5 cm`, `12 cm`, `8 mm`; `1 in`, `0.3 in`."""
    if imperial:
        return f"{_tenths(mm / MM_PER['in'])} {phrase('in')}"
    return f"{_tenths(mm / MM_PER['cm'])} cm" if mm >= 9.95 else f"{mm:.0f} mm"


def _tenths(value: float) -> str:
    return in_figures(f"{value:,.1f}".removesuffix(".0"))


def length_in(chart: Chart, mm: float) -> str:
    """`fabric_length` in the units of the chart's gauge."""
    return fabric_length(mm, is_imperial(chart))


def ball_count(number: float) -> str:
    """`1 ball`, `2.5 balls`."""
    return count(int(number), "ball") if number == int(number) else phrase("{n} balls", n=in_figures(f"{number:g}"))
