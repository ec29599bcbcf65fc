"""What makes drawings readable, by the strokes themselves: rims of paper around lines, yarns darker at their edge than
in their core, legends that have room, sheets that all are sound."""

import pytest
from drawers import SMALL, charts
from drawn import make_chart

from lintarsia.chart import Repeat
from lintarsia.drawing import chart_geometry, chart_svg, fabric_svg, sheets, yarn_paths_svg
from lintarsia.drawing.shades import contrast, edge_on, luminance
from lintarsia.drawing.sheets import part_of, plan_sheets
from lintarsia.planning.planner import make_plan
from soundness import Piece, faults, pieces

WIDE = make_chart("\n".join(["B" * 50 + "W" * 70] * 90), title="Wide one", repeat=Repeat((3, 62), (5, 80)))
PAPER, INK, ACCENT = "#fbf8f1", "#2b2622", "#b4472e"


def layered(found: list[Piece]) -> dict[object, list[Piece]]:
    """Strokes over the very same line, in the order in which they are painted."""
    lines: dict[object, list[Piece]] = {}
    for piece in found:
        if piece.stroke != "none" and piece.kind in ("path", "circle"):
            lines.setdefault(str(piece.lines), []).append(piece)
    return {line: own for line, own in lines.items() if len(own) > 1}


@pytest.mark.parametrize("name", SMALL)
def test_yarn_is_a_core_within_a_darker_edge(name: str) -> None:
    """Each stroke over the same line is narrower than the one beneath; of two yarn colours the lower is the darker."""
    for own in layered(pieces(SMALL[name]())).values():
        widths = [piece.width for piece in own]
        assert widths == sorted(widths, reverse=True), name
        assert len(set(widths)) == len(widths)
        shades = [piece.stroke for piece in own if piece.stroke not in (PAPER, ACCENT, INK)]
        lights = [luminance(shade) for shade in shades]
        assert lights == sorted(lights), "edge, core, gleam"


@pytest.mark.parametrize("draw", ["back", "paths", "supplies"])
def test_yarns_lie_in_casings_and_edges(draw: str) -> None:
    chart = charts()["moon"]
    svg = (
        fabric_svg(chart, plan=make_plan(chart), back=True)
        if draw == "back"
        else yarn_paths_svg(chart, make_plan(chart))
    )
    found = [p for p in pieces(svg) if "lx-loose" in p.within or "supply" in p.data]
    groups = layered([p for p in found if p.kind == "path"])
    assert groups
    for own in groups.values():
        widths = [piece.width for piece in own]
        assert widths == sorted(widths, reverse=True)
        assert 0.5 < widths[-1] < widths[0] < 9


def test_every_sheet_is_sound_with_marks_in_rims_of_paper() -> None:
    for sheet, svg in zip(plan_sheets(WIDE), sheets(WIDE, "A4", "so"), strict=True):
        assert faults(svg) == []
        marks = [p for p in pieces(svg) if "lx-register" in p.within]
        assert len(marks) % 4 == 0
        for rim, ring in zip(marks[::2], marks[1::2], strict=True):
            assert {rim.stroke, ring.stroke} == {"#ffffff", INK} or rim.kind != ring.kind
        rims, lines = [p for p in marks if p.stroke == "#ffffff"], [p for p in marks if p.stroke == INK]
        assert len(rims) == len(lines) > 0
        assert min(p.width for p in rims) > 2 * max(p.width for p in lines)
        assert {str(p.lines) for p in rims} == {str(p.lines) for p in lines}
        assert sheet.of > 1


def test_the_repeat_goes_on_over_the_sheets() -> None:
    """Its box stands at the same stitches and rows of the chart on every sheet, open where it goes on."""
    (first, last), (low, high) = (3, 62), (5, 80)
    seen = set()
    for sheet, svg in zip(plan_sheets(WIDE), sheets(WIDE), strict=True):
        _, place = part_of(WIDE, sheet)
        box = [p for p in pieces(svg) if "lx-repeat" in p.within and p.stroke == ACCENT]
        for line in (line for piece in box for line in piece.lines):
            (x1, y1), (x2, y2) = line
            stitches = {120 - sheet.columns[0] - round((x - place.x(0)) / place.cell_w) for x in (x1, x2)}
            rows = {round((place.y(0) - y) / place.cell_h) + sheet.rows[0] - 1 for y in (y1, y2)}
            if y1 == y2:
                assert rows <= {low - 1, high}
                seen |= {("row", row) for row in rows}
                assert min(stitches) >= first - 1
                assert max(stitches) <= last
            else:
                assert stitches <= {first - 1, last}
                seen |= {("stitch", stitch) for stitch in stitches}
                assert min(rows) >= low - 1
                assert max(rows) <= high
    assert seen == {("row", 4), ("row", 80), ("stitch", 2), ("stitch", 62)}


@pytest.mark.parametrize("name", ["moon", "neck", "tall", "round"])
def test_a_legend_has_room_and_no_more(name: str) -> None:
    """The drawing ends soon beneath the last line of its key, and the key begins beneath the numbers."""
    chart = charts()[name]
    svg = chart_svg(chart, key=True)
    high = float(svg.partition('viewBox="0 0 ')[2].split()[1].rstrip('"'))
    key = [p for p in pieces(svg) if "lx-key" in p.within]
    foot, top = max(p.box[3] for p in key), min(p.box[1] for p in key if p.kind == "rect")
    assert 2 < high - foot < 14
    place = chart_geometry(chart)
    title = next(p for p in pieces(svg) if p.kind == "text" and p.text and p.text[:4] == chart.title[:4])
    assert place.height < title.middle[1] < top
    assert top - title.middle[1] < 20


@pytest.mark.parametrize("shade", ["#ffffff", "#efe9dc", "#f0e040", "#808080", "#27406b", "#000000"])
def test_an_edge_is_seen_on_paper_and_is_darker_than_its_yarn(shade: str) -> None:
    """WCAG 2.2, 1.4.11: 3 to 1 for what a drawing needs to be understood; no darker than that asks for."""
    edge = edge_on(shade)
    assert contrast(edge, PAPER) >= 3
    assert luminance(edge) <= luminance(shade)
    if contrast(shade, PAPER) < 1.5:
        assert contrast(edge, PAPER) < 3.6
