"""Purl stitches drawn: a dot in the chart's square, a bump in the fabric, and the other way round at the back."""

import re
from pathlib import Path

from lintarsia.chart import Chart
from lintarsia.drawing.chart import chart_svg
from lintarsia.drawing.fabric import fabric_svg
from lintarsia.drawing.sheet_pages import sheets
from lintarsia.drawing.signs import signs
from lintarsia.reading import read_chart

EXAMPLES = Path(__file__).parents[2] / "examples"


def read(name: str) -> Chart:
    chart = read_chart(str(EXAMPLES / f"{name}.chart.yaml")).chart
    assert chart is not None
    return chart


def dots(svg: str) -> int:
    groups = re.findall(r'<g class="lx-purl".*?</g>', svg, re.DOTALL)
    return sum(group.count("h.01") for group in groups)


def test_every_purl_has_its_dot_in_the_chart_and_on_the_sheets() -> None:
    pillow = read("pitcher-pillow")
    assert pillow.texture is not None
    purls = int(pillow.texture.purl.sum())
    assert purls > 100
    assert dots(chart_svg(pillow)) == purls
    assert sum(map(dots, sheets(pillow))) >= purls  # sheets share some rows and stitches
    assert "purl" in [sign.name for sign in signs(pillow)]


def test_a_chart_without_the_layer_has_neither_dots_nor_their_sign() -> None:
    plain = read("moon-over-reeds")
    assert dots(chart_svg(plain)) == 0
    assert "purl" not in [sign.name for sign in signs(plain)]


def test_the_fabric_has_both_kinds_of_stitches_on_both_sides() -> None:
    pillow, plain = read("pitcher-pillow"), read("moon-over-reeds")
    for back in (False, True):
        drawn = fabric_svg(pillow, back=back)
        assert 'id="knit-' in drawn
        assert 'id="purl-' in drawn
    assert 'id="purl-' not in fabric_svg(plain)
    assert 'id="knit-' not in fabric_svg(plain, back=True)
