"""Print sheets: nothing lost, marks that meet when taped, the papers' true sizes."""

import re
from dataclasses import replace

import pytest
from drawn import KEY, SVG, dangers, make_chart, parse, strokes
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree

from lintarsia.chart import Chart, DuplicateStitch, Repeat, Shaping
from lintarsia.chart.shaping import Divide, Parting
from lintarsia.drawing import sheets
from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.lines import side_room
from lintarsia.drawing.sheets import OVERLAP, SMALLEST, USUAL, part_of, plan_sheets
from lintarsia.drawing.svg import num


def large(stitches: int = 90, rows: int = 120) -> Chart:
    text = "\n".join("".join("BWRM"[(r * 7 + c * 3) % 4] for c in range(stitches)) for r in range(rows))
    return make_chart(text, KEY)


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 400), st.integers(1, 400), st.sampled_from(["A4", "Letter"]))
def test_sheets_cover_the_chart_and_neighbours_share_three(stitches: int, rows: int, paper: str) -> None:
    chart = make_chart("\n".join(["B" * stitches] * rows))
    plan = plan_sheets(chart, paper)
    assert [s.number for s in plan] == list(range(1, len(plan) + 1))
    covered = {(c, r) for s in plan for c in range(*s.columns) for r in range(s.rows[0], s.rows[1] + 1)}
    assert len(covered) == stitches * rows
    by_place = {(s.across, s.up): s for s in plan}
    for (across, up), sheet in by_place.items():
        left, above = by_place.get((across + 1, up)), by_place.get((across, up + 1))
        if left:
            assert left.columns[1] - sheet.columns[0] == OVERLAP
        if above:
            assert sheet.rows[1] - above.rows[0] + 1 == OVERLAP
    assert plan[0].columns[1] == stitches
    assert plan[0].rows[0] == 1
    assert all(s.cell_mm >= (SMALLEST if len(plan) == 1 else USUAL - 0.01) for s in plan)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_everything_lies_on_the_paper(paper: str) -> None:
    chart = large()
    for sheet in plan_sheets(chart, paper):
        _, place = part_of(chart, sheet)
        unit = CELL / sheet.cell_mm
        room = side_room(chart, place, chart.grid.height)  # for numbers and arrows, inside the margin
        assert place.x(0) >= 8 * unit + room - 0.01
        assert place.x(place.columns) <= (sheet.wide - 8) * unit - room + 0.01
        assert place.y(place.rows) >= 23 * unit - 0.01
        assert place.y(0) <= (sheet.high - 15) * unit


# ISO 216 and ANSI/ASME Y14.1, in millimetres, upright or lying
@pytest.mark.parametrize(("paper", "size"), [("A4", {"210", "297"}), ("Letter", {"215.9", "279.4"})])
def test_papers_have_their_true_size(paper: str, size: set[str]) -> None:
    for svg in sheets(large(), paper):
        root = parse(svg)
        assert {root.get("width"), root.get("height")} == {f"{side}mm" for side in size}
        _, _, wide, high = (float(v) for v in root.get("viewBox").split())
        assert wide / high == pytest.approx(float(root.get("width")[:-2]) / float(root.get("height")[:-2]), rel=1e-4)


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="expected A4 or Letter"):
        sheets(large(), "A9")


def test_a_small_chart_takes_one_sheet_without_marks() -> None:
    [svg] = sheets(make_chart())
    assert "lx-register" not in svg
    assert "lx-map" not in svg


def test_marks_of_neighbours_lie_on_the_same_line_of_the_chart() -> None:
    chart = large()
    lines: dict[str, dict[tuple[int, int], set[float]]] = {"stitch": {}, "row": {}}
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        _, place = part_of(chart, sheet)
        for group in parse(svg).iter(f"{SVG}g"):
            if group.get("class") != "lx-register":
                continue
            ring = group.find(f"{SVG}circle")
            x, y = float(ring.get("cx")), float(ring.get("cy"))
            stitch = chart.grid.width - sheet.columns[0] - (x - place.x(0)) / CELL
            row = place.skip_rows + (place.y(0) - y) / place.cell_h
            if min(abs(y - place.y(0)), abs(y - place.y(place.rows))) < 0.1:
                lines["stitch"].setdefault((sheet.across, sheet.up), set()).add(round(stitch, 1))
            else:
                lines["row"].setdefault((sheet.across, sheet.up), set()).add(round(row, 1))
    plan = {(s.across, s.up): s for s in plan_sheets(chart)}
    for across, up in plan:
        if (across + 1, up) in plan:
            assert len(lines["stitch"][across, up] & lines["stitch"][across + 1, up]) == 1
        if (across, up + 1) in plan:
            assert len(lines["row"][across, up] & lines["row"][across, up + 1]) == 1
    for found in lines.values():
        assert all(value == int(value) for values in found.values() for value in values)


def test_each_sheet_shows_its_part_with_the_charts_own_numbers() -> None:
    chart = large()
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        root = parse(svg)
        part, place = part_of(chart, sheet)
        [group] = [g for g in root.iter(f"{SVG}g") if "lx-row-numbers" in (g.get("class") or "")]
        numbers = {int(t.text) for t in group.iter(f"{SVG}text")}
        assert numbers == set(range(sheet.rows[0], sheet.rows[1] + 1))
        [group] = [g for g in root.iter(f"{SVG}g") if "lx-stitch-numbers" in (g.get("class") or "")]
        for text in group:
            column = chart.grid.width - int(text.text) - sheet.columns[0]
            assert float(text.get("x")) == pytest.approx(place.x(column + 0.5), abs=0.01)
        [rows] = [g for g in root.iter(f"{SVG}g") if float(g.get("stroke-width") or 0) == pytest.approx(place.cell_h)]
        assert sum(len(t.text) for t in rows.iter(f"{SVG}text")) == part.grid.width * part.grid.height
        cells = [line for p in rows.iter(f"{SVG}path") for line in strokes(p.get("d"))]
        assert sum(x2 - x1 for x1, x2, _ in cells) / CELL == pytest.approx(part.grid.width * part.grid.height)


def test_rows_shorter_than_the_chart_stay_in_their_columns() -> None:
    chart = make_chart("\n".join(["B" * 30, "B" * 120] * 100))
    for sheet in plan_sheets(chart):
        part, _ = part_of(chart, sheet)
        assert part.grid.cells.shape == (len(part.grid.rows), sheet.columns[1] - sheet.columns[0])
        for text, cells in zip(part.grid.rows, part.grid.cells, strict=True):
            assert len(text) == (cells >= 0).sum()


def _banded(*, changed: bool = False) -> Chart:
    """Three times a band of 60 stitches, lopsided; or one whose left copy has another stitch."""
    band = ["".join("RB"[(at * at + 3 * row) % 7 < 3] for at in range(60)) for row in range(50)]
    rows = [text * 3 for text in band]
    if changed:
        rows[20] = ("R" if rows[20][0] == "B" else "B") + rows[20][1:]
    return make_chart("\n".join(rows), KEY, repeat=Repeat((1, 60), (1, 50)))


def test_a_chart_that_is_its_repeat_over_and_over_is_printed_once() -> None:
    shown = plan_sheets(_banded())
    assert {sheet.times for sheet in shown} == {3}
    assert sorted({at for sheet in shown for at in range(*sheet.columns)}) == list(range(120, 180))
    assert len(shown) < len(plan_sheets(replace(_banded(), repeat=None)))
    assert "stitches 1–60, rows 1–50, worked 3 times" in sheets(_banded())[0]


def test_a_copy_that_differs_is_printed_with_the_others() -> None:
    shown = plan_sheets(_banded(changed=True))
    assert {sheet.times for sheet in shown} == {1}
    assert {at for sheet in shown for at in range(*sheet.columns)} == set(range(180))


def test_the_repeat_box_is_cut_with_the_sheets() -> None:
    chart = large()
    boxed = make_chart("\n".join(reversed(chart.grid.rows)), KEY, repeat=Repeat((3, 60), (2, 100)))
    drawn = [re.search(r'class="lx-repeat".*?d="([^"]*)"', svg) for svg in sheets(boxed)]
    strokes = [match[1].count("M") for match in drawn if match]
    assert sum(strokes) >= 4
    assert max(strokes) < 4  # no single sheet has all four sides


def groups(svg: str, kind: str) -> list[etree._Element]:
    return [g for g in parse(svg).iter(f"{SVG}g") if g.get("class") == kind]


def test_duplicate_stitches_are_cut_with_the_sheets() -> None:
    """Each sheet has those of its own stitches; three that neighbours share are on both."""
    chart = replace(large(), duplicate=(DuplicateStitch("R", 70, (1, 90)),))
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        sewn = [t for g in groups(svg, "lx-duplicate") for t in g.findall(f"{SVG}text")]
        here = sheet.rows[0] <= 70 <= sheet.rows[1]
        assert len(sewn) - 1 == (sheet.columns[1] - sheet.columns[0] if here else 0)  # one more is in the key


def test_shaping_is_marked_on_the_sheets_that_have_the_edge() -> None:
    shaping = {3: Shaping(-2, left=-1, right=-1), 50: Shaping(1, left=1, right=0), 60: Shaping(-2), 61: Shaping(-2)}
    chart = replace(large(), shaping=shaping)
    assert chart.leftward(61)  # its number stands at the right, so what is decreased stands at the left
    edges = {(3, "left"), (3, "right"), (50, "left"), (60, "right"), (61, "left")}
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        ends = {"left": sheet.columns[0] == 0, "right": sheet.columns[1] == chart.grid.width}
        here = [edge for row, edge in edges if ends[edge] and sheet.rows[0] <= row <= sheet.rows[1]]
        assert len(groups(svg, "lx-shaping")) == len(here)


def test_marks_and_slits_are_cut_with_the_sheets() -> None:
    """A neck of 30 held stitches in row 100 and a slit in rows 40 to 60, over several sheets across and up."""
    whole, opened = "B" * 100, "B" * 38 + "." * 30 + "B" * 32
    chart = make_chart("\n".join([opened] * 50 + [whole] * 99), divide={
        40: Divide(40, Parting.NOTHING, at=44, to=60), 100: Divide(100, Parting.HOLD),
    })  # fmt: skip
    cut = plan_sheets(chart)
    assert len(cut) > 2
    held, slit = set(), set()
    for sheet, svg in zip(cut, sheets(chart), strict=True):
        part, place = part_of(chart, sheet)
        for group in groups(svg, "lx-shaping"):
            [loops, _] = [p.get("d") for p in group.findall(f"{SVG}path")]
            for x in re.findall(r"M([\d.]+) ", loops):
                held.add(int((float(x) - place.left) / CELL) + sheet.columns[0])
        [outline] = [p.get("d") for p in parse(svg).iter(f"{SVG}path") if p.get("class") == "lx-outline"]
        x = place.x(56 - sheet.columns[0])
        for foot, top in re.findall(rf"M{num(x)} ([\d.]+)V([\d.]+)", outline):
            first = part.grid.height - round((float(foot) - place.top) / place.cell_h) + sheet.rows[0]
            last = part.grid.height - round((float(top) - place.top) / place.cell_h) + sheet.rows[0] - 1
            slit |= set(range(first, last + 1))
    assert held == set(range(38, 68))
    assert slit == set(range(40, 61))


def test_arrows_stand_at_the_first_two_rows_and_nowhere_else() -> None:
    chart = large()
    for sheet, svg in zip(plan_sheets(chart), sheets(chart), strict=True):
        assert svg.count('class="lx-way"') == (2 if sheet.rows[0] == 1 else 0)


def test_the_key_of_a_sheet_names_every_sign_on_it() -> None:
    chart = make_chart(
        "..BBBB..\nBBBBBBBB\nBBWWBBBB",
        KEY,
        shaping={3: Shaping(-4, left=-2, right=-2), 2: Shaping(1, right=1)},
        duplicate=(DuplicateStitch("R", 2, (3, 3)),),
        repeat=Repeat((1, 4), (1, 2)),
    )
    [svg] = sheets(chart)
    [key] = groups(svg, "lx-key")
    names = {t.text for t in key.findall(f"{SVG}text")}
    assert {"no stitch", "decrease", "increase", "duplicate stitch", "repeat"} <= names
    [plain] = groups(sheets(make_chart())[0], "lx-key")
    assert not plain.findall(f"{SVG}g")


def test_hostile_titles_stay_titles() -> None:
    for svg in sheets(make_chart(title="</text><script>\x00" * 20)):
        assert dangers(svg) == []
