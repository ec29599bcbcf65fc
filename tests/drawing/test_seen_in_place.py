"""By geometry alone: what is seen at a place of a drawing is what the chart, or its plan, has there."""

from collections.abc import Iterator

import pytest
from drawers import DRAWERS, charts
from drawn import make_chart

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.drawing import (
    chart_geometry,
    chart_svg,
    sheets,
    yarn_paths_svg,
)
from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.shades import mix
from lintarsia.drawing.sheets import part_of, plan_sheets
from lintarsia.drawing.yarn_paths import _geometry as paths_geometry
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from soundness import Piece, pieces, seen_at


def middle(chart: Chart, row: int, column: int, across: float = 0.5) -> tuple[float, float]:
    """A point of a stitch by the geometry that a page reads from the drawing; row 1 is the lowest."""
    place = chart_geometry(chart)
    return place.left + (column + across) * CELL, place.top + (chart.grid.height - row + 0.5) * place.cell_h


def stitches(chart: Chart) -> Iterator[tuple[int, int, str]]:
    """Row, column from the left and symbol of every square."""
    for row, text in enumerate(chart.grid.rows, 1):
        for column, symbol in enumerate(text, chart.grid.width - len(text)):
            yield row, column, symbol


def shade(chart: Chart, symbol: str) -> str:
    return chart.colours[symbol].shade if symbol in chart.colours else "#ffffff"


@pytest.mark.parametrize("name", ["moon", "neck", "round", "ragged", "odd"])
@pytest.mark.parametrize("whole", [False, True])
def test_every_square_is_seen_in_its_colour(name: str, whole: bool) -> None:
    chart = charts()[name]
    found = [p for p in pieces(chart_svg(chart, whole=whole)) if "lx-shaping" not in p.within]
    for row, column, symbol in stitches(chart):
        seen = seen_at(found, middle(chart, row, column, 0.22))
        assert seen == ("#d9d5ce" if symbol == NO_STITCH_SYMBOL else shade(chart, symbol)), (row, column)


@pytest.mark.parametrize("name", ["moon", "neck", "ragged", "odd"])
def test_every_square_has_its_letter_in_its_middle(name: str) -> None:
    chart = charts()[name]
    letters = [p for p in pieces(chart_svg(chart)) if p.kind == "text" and "lx-row" in p.within]
    found = {(p.data["row"], p.text, round(p.middle[0], 1)) for p in letters if "lx-duplicate" not in p.within}
    sewn = {(d.row, chart.grid.width - s) for d in chart.duplicate for s in range(d.stitches[0], d.stitches[1] + 1)}
    for row, column, symbol in stitches(chart):
        if symbol != NO_STITCH_SYMBOL and (row, column) not in sewn:
            assert (str(row), symbol, round(middle(chart, row, column)[0], 1)) in found
    for letter in letters:
        y = middle(chart, int(letter.data["row"]), 0)[1]
        assert y < letter.middle[1] < y + chart_geometry(chart).cell_h / 2, "its foot is a little below the middle"


@pytest.mark.parametrize("name", ["moon", "neck", "tall"])
def test_every_square_of_a_sheet_is_seen_in_its_colour(name: str) -> None:
    chart = charts()[name]
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        part, place = part_of(chart, sheet)
        found = [p for p in pieces(svg) if "lx-map" not in p.within]
        for row, column, symbol in stitches(part):
            if (row + column) % 3 and symbol != NO_STITCH_SYMBOL:
                point = place.x(column + 0.22), place.middle(row)
                assert seen_at(found, point) == shade(chart, symbol)


def test_a_sheet_s_words_lie_in_its_margins_and_name_it() -> None:
    wide = make_chart("\n".join(["BW" * 60] * 90), title="Wide one")
    for sheet, svg in zip(plan_sheets(wide), sheets(wide, "A4", "fingerprint 0123456789abcdef"), strict=True):
        width = float(svg.partition('viewBox="0 0 ')[2].split()[0])
        unit = width / sheet.wide
        head = [p for p in pieces(svg) if p.kind == "text" and len(p.text) > 4][:4]
        title, size, shows, stamp = head
        assert (title.text, size.text) == ("Wide one", "22 stitches and 30 rows to 10 cm")
        assert stamp.text == "fingerprint 0123456789abcdef"
        first, last = 120 - sheet.columns[1] + 1, 120 - sheet.columns[0]
        assert shows.text == (
            f"sheet {sheet.number} of {sheet.of} · stitches {first}–{last}, rows {sheet.rows[0]}–{sheet.rows[1]}"
        )
        assert title.size > size.size == shows.size > stamp.size
        assert title.middle[0] == size.middle[0] == stamp.middle[0] == pytest.approx(10 * unit, abs=4 * unit)
        assert title.middle[1] < size.middle[1] == shows.middle[1] < stamp.middle[1]
        assert (title.anchor, shows.anchor) == ("start", "end")
        cells = [p for p in pieces(svg) if "lx-map" in p.within]
        (here,) = (p for p in cells if p.fill == "#b4472e")
        assert len(cells) == sheet.of == sheet.many_across * sheet.many_up
        columns = sorted({round(p.box[0], 1) for p in cells}, reverse=True)
        rows = sorted({round(p.box[1], 1) for p in cells}, reverse=True)
        assert (columns.index(round(here.box[0], 1)), rows.index(round(here.box[1], 1))) == (sheet.across, sheet.up)
        assert shows.middle[0] < min(p.box[0] for p in cells), "the words stand clear of the map"
        assert max(p.box[2] for p in cells) == pytest.approx(width - title.middle[0], abs=0.1)


def plan_of(name: str) -> tuple[Chart, Plan]:
    return charts()[name], make_plan(charts()[name])


@pytest.mark.parametrize("name", ["moon", "neck", "turned", "ragged"])
@pytest.mark.parametrize("kind", ["supplies", "paths"])
def test_every_yarn_goes_through_its_own_stitches(name: str, kind: str) -> None:
    """Through each stitch of each of its runs, near the middle, in its own shade and over no other yarn's stitch."""
    chart, plan = plan_of(name)
    svg = DRAWERS[kind](chart)
    found = [p for p in pieces(svg) if "supply" in p.data and p.kind == "path"]
    left, top, cell_h = _frame(chart, svg)
    runs = plan.threads.runs
    for supply in plan.supplies:
        own = [p for p in found if p.data["supply"] == supply.id]
        for run in supply.runs:
            row = int(runs.row[run])
            y = top + (chart.grid.height - row - 0.5) * cell_h
            for column in range(int(runs.left[run]), int(runs.right[run]) + 1):
                x = left + (column + 0.5) * CELL
                if chart.grid.cells[row, column] >= 0:
                    assert any(_passes(p.lines, (x, y), 0.2 * cell_h) for p in own), (supply.id, row + 1, column)
        shades = {p.stroke for p in own if p.data["supply"] == supply.id}
        assert shade(chart, supply.colour) in shades or kind == "supplies"


def _passes(lines: list[list[tuple[float, float]]], point: tuple[float, float], reach: float) -> bool:
    return seen_at([_bare(lines, reach)], point) != ""


def _bare(lines: list[list[tuple[float, float]]], reach: float) -> Piece:
    return Piece("path", lines, "none", "#000", 2 * reach, (), "", 1.0, "start", {}, cap="round")


def _frame(chart: Chart, svg: str) -> tuple[float, float, float]:
    """Where the cells begin in a drawing that says it by its row numbers or by the first translation."""
    place = chart_geometry(chart)
    if 'class="lx lx-paths"' in svg:
        place = paths_geometry(chart)
    return place.left, place.top, place.cell_h


@pytest.mark.parametrize("name", ["moon", "neck", "turned", "ragged"])
@pytest.mark.parametrize("kind", ["ends", "paths"])
def test_a_dot_where_a_yarn_begins_and_a_ring_where_it_ends(name: str, kind: str) -> None:
    chart, plan = plan_of(name)
    svg = DRAWERS[kind](chart)
    left, top, cell_h = _frame(chart, svg)
    marks = [p for p in pieces(svg) if p.kind == "circle" and "supply" in p.data]
    runs = plan.threads.runs
    for supply in plan.supplies:
        for which, run, columns in (
            ("lx-join", supply.runs[0], runs.entry), ("lx-finish", supply.runs[-1], runs.exit),
        ):  # fmt: skip
            own = [p for p in marks if p.data["supply"] == supply.id and which in p.within]
            x = left + (int(columns[run]) + 0.5) * CELL
            y = top + (chart.grid.height - int(runs.row[run]) - 0.5) * cell_h
            assert {(round(p.middle[0], 1), round(p.middle[1])) for p in own} == {(round(x, 1), round(y))}
            assert own[0].fill == "#fbf8f1", "a rim of paper beneath"
            assert own[0].box[2] - own[0].box[0] > own[-1].box[2] - own[-1].box[0]
            shades = {own[-1].fill, own[-1].stroke}
            assert shade(chart, supply.colour) in shades


def test_beneath_the_yarns_lie_the_colours_of_the_chart_faintly() -> None:
    chart = charts()["neck"]
    found = pieces(yarn_paths_svg(chart, make_plan(chart)))
    ground = [p for p in found if p.within[-1] in ("lx-paths", "lx-sheet") and "supply" not in p.data]
    place = paths_geometry(chart)
    for row, column, symbol in stitches(chart):
        point = place.x(column + 0.5), place.middle(row)
        faint = "#fbf8f1" if symbol == NO_STITCH_SYMBOL else mix("#fbf8f1", shade(chart, symbol), 0.2)
        assert seen_at(ground, point) == faint


@pytest.mark.parametrize("name", ["moon", "round", "tall"])
def test_numbers_beside_the_yarns(name: str) -> None:
    chart = charts()[name]
    place = paths_geometry(chart)
    texts = [p for p in pieces(yarn_paths_svg(chart, make_plan(chart))) if p.kind == "text"]
    rows = {int(p.text): p for p in texts if "lx-row-numbers" in p.within}
    assert set(rows) == {1, *range(5, chart.grid.height + 1, 5)}
    for number, piece in rows.items():
        assert piece.middle[1] == pytest.approx(place.middle(number) + piece.size * 0.36, abs=0.6)
        right = chart.leftward(number)
        assert (piece.middle[0] > place.x(place.columns)) is right
        assert piece.anchor == ("start" if right else "end")
    stitch = {int(p.text): p.middle for p in texts if "lx-stitch-numbers" in p.within}
    assert set(stitch) == {1, *range(5, chart.grid.width + 1, 5)}
    assert all(x == pytest.approx(place.x(chart.grid.width - n + 0.5), abs=0.1) for n, (x, _) in stitch.items())
    assert all(place.y(0) < y < place.height for _, y in stitch.values())
