"""Charts drawn in a test, top line first as printed."""

from textwrap import dedent
from typing import Any

from lintarsia.chart import Chart, Colour, Gauge, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length

GAUGE = Gauge(22, 30, Length(10, "cm"))


def draw_chart(picture: str, **fields: Any) -> Chart:
    """A chart of `picture`; 22 stitches × 30 rows over 10 cm, flat intarsia unless `fields` say otherwise."""
    rows = dedent(picture).split()[::-1]
    symbols = sorted(set("".join(rows)) - {"."})
    colours = {symbol: Colour(symbol, f"colour {symbol}", "#336699") for symbol in symbols}
    defaults: dict[str, Any] = {"gauge": GAUGE, "worked": Worked.FLAT, "technique": Technique.INTARSIA}
    fields = defaults | {"colours": colours} | fields
    return Chart("test.chart.yaml", "Test", grid=build_grid(rows, list(fields["colours"])), **fields)
