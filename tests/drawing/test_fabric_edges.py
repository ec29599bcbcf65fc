"""A garment's fabric has a chain where stitches are cast on or bound off: one link a stitch (common practice)."""

import re
from pathlib import Path

import numpy as np
import pytest

from lintarsia.chart import Chart
from lintarsia.drawing.fabric import TOO_MANY, fabric_svg
from lintarsia.drawing.stitches import StitchDrawing
from lintarsia.reading import read_chart

EXAMPLES = Path(__file__).parents[2] / "examples"
HEAD = """\
lintarsia: 1
title: Edges
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
"""


def read(text: str) -> Chart:
    reading = read_chart("edges.chart.yaml", (HEAD + text).encode())
    assert reading.problems == (), reading.problems
    assert reading.chart is not None
    return reading.chart


def links(chart: Chart, *, back: bool = False) -> dict[str, int]:
    """Links of the chains by shade."""
    [edges] = re.findall(r'<g class="lx-edges"[^>]*>(.*?)</g>', fabric_svg(chart, back=back)) or [""]
    return {shade: way.count("z") for shade, way in re.findall(r'<path fill="(#[0-9a-f]+)"[^>]* d="([^"]*)"', edges)}


@pytest.mark.parametrize("back", [False, True])
def test_a_link_for_each_stitch_cast_on_or_bound_off_in_its_own_colour(back: bool) -> None:
    chart = read(
        "shaping: {3: {right: -3}, 4: {left: -4}, 5: {right: 3}}\ndivide: {6: {by: bind-off}}\n"
        "chart: |\n"
        "  ....WW...WWW\n  ....WWWWWWWW\n  ....BBBBB...\n  WWWWBBBBB...\n  BBBBBBBBBBBB\n  BBBBBBWWWWWW\n"
    )
    # cast on 6 and 6; off 3 blue and 4 bone at the armholes, on 3 bone in row 5, off 3 bone between the sides
    assert links(chart, back=back) == {"#27406b": 6 + 3, "#efe9dc": 6 + 4 + 3 + 3}


def test_stitches_on_a_holder_keep_their_loops() -> None:
    chart = read("divide: {2: {by: hold}}\nchart: |\n  BB...BBB\n  BBBBBBBB\n")
    assert links(chart) == {"#27406b": 8}


def test_a_swatch_has_no_edges_of_its_own() -> None:
    assert "lx-edges" not in fabric_svg(read("chart: |\n  BBWW\n  BBBW\n"))


def test_a_slit_is_a_line_between_its_stitches() -> None:
    drawn = fabric_svg(read("divide: {2: {by: nothing, at: 3}}\nchart: |\n  BBBBB\n  BBBBB\n  BBBBB\n"))
    [way] = re.findall(r'stroke-opacity="\.55"[^>]* d="([^"]*)"', drawn)
    assert way.count("M") == 2
    assert len(set(re.findall(r"M([\d.]+) ", way))) == 1


def test_the_fox_has_links_for_all_that_its_designer_casts_on_and_binds_off() -> None:
    chart = read_chart(str(EXAMPLES / "fox-jumper" / "front.chart.yaml")).chart
    assert chart is not None
    assert links(chart) == {"#4c5f45": 66, "#b9c6c0": 3 + 3 + 10 + 6 * 4}


def test_a_fabric_of_very_many_stitches_keeps_its_garter_border() -> None:
    """Every second row of garter stitch is a ridge, also of the rows that are left."""
    side = 2 * int(TOO_MANY**0.5)
    layer = "".join(f"  {'g' * side}\n" for _ in range(side))
    rows = "".join(f"  {'B' * side}\n" for _ in range(side))
    chart = read(f"stitches: |\n{layer}chart: |\n{rows}")
    thinned = _drawn(chart)
    assert thinned.grid.height == side // 2
    assert thinned.texture is not None
    assert np.array_equal(thinned.texture.purl[:, 0], [row % 2 == 1 for row in range(side // 2)])


def _drawn(chart: Chart) -> Chart:
    from lintarsia.drawing.fabric import Fabric

    fabric = Fabric(chart)
    assert isinstance(fabric.stitches, StitchDrawing)
    return fabric.chart
