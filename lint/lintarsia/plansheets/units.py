"""Words that all plan sheets share: counts, and lengths in the units of the chart's own gauge."""

from math import ceil

from lintarsia.chart import Chart, Worked

MM_PER_INCH = 25.4
METRES_PER_YARD = 0.9144
CAUTION = (  # case reports of thread tourniquet in infants; rules/shared/citing.py names them
    "Small fingers and toes catch in floats: line the piece or keep them short, and follow the rules that hold where "
    "you sell."
)


def is_imperial(chart: Chart) -> bool:
    return chart.gauge.over.imperial


def yarn_length(metres: float, imperial: bool) -> str:
    """`5.4 m`, `58 cm`; `5.9 yd`, `23 in`: to the nearest."""
    if imperial:
        yards = metres / METRES_PER_YARD
        return f"{yards:,.1f} yd" if yards >= 1 else f"{yards * 36:.0f} in"
    return f"{metres:,.1f} m" if metres >= 0.995 else f"{metres * 100:.0f} cm"


def wound_length(metres: float, imperial: bool) -> str:
    """The same rounded up to what one measures off at a table, so that there is always enough.

    To 5 cm below a metre, 10 cm below ten, half a metre above; to 2 in, a quarter and half a yard likewise.
    """
    unit, steps, small = (METRES_PER_YARD, (0.25, 0.5), 2 / 36) if imperial else (1.0, (0.1, 0.5), 0.05)
    value = metres / unit
    if value <= 1 - small:
        count = ceil(value / small - 1e-9)
        return f"{count * 2} in" if imperial else f"{count * 5} cm"
    step = steps[0] if value <= 10 else steps[1]
    value = ceil(value / step - 1e-9) * step
    return f"{value:,.2f} yd" if imperial else f"{value:,.1f} m"


def short_length(mm: float, imperial: bool) -> str:
    """A distance on the fabric: `2.5 cm`, `8 mm`; `1 in`, `0.3 in`."""
    if imperial:
        return f"{mm / MM_PER_INCH:.1f} in"
    return f"{mm / 10:.1f} cm" if mm >= 9.95 else f"{mm:.0f} mm"


def row_word(chart: Chart) -> str:
    """`row`, or `round` where the chart is worked in rounds."""
    return "round" if chart.worked is Worked.ROUND else "row"


def count(number: int, one: str, many: str = "") -> str:
    """`1 supply`, `1,204 stitches`."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"
