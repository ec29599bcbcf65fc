"""The flat chart: every stitch once, in its place, in true proportion; numbers where a knitter looks for them."""

import re
from collections import Counter

import pytest
from drawn import KEY, SVG, dangers, make_chart, moved, parse, strokes
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import DuplicateStitch, Repeat, Shaping
from lintarsia.chart.shaping import Divide, Parting
from lintarsia.drawing import chart_geometry, chart_svg
from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.shades import NO_STITCH, TEXT_CONTRAST, contrast
from lintarsia.planning.planner import make_plan
from lintarsia.result import NOWHERE, Level, Result


def painted(svg: str) -> dict[tuple[int, int], list[tuple[str, str]]]:
    """(row, column) → (shade, symbol) of everything painted there, from the drawing alone."""
    root = parse(svg)
    wide, high = float(root.get("data-cell-width")), float(root.get("data-cell-height"))
    left, top, rows = (float(root.get(f"data-{name}")) for name in ("left", "top", "rows"))
    [around] = [g for g in root.iter(f"{SVG}g") if "lx-rows" in (g.get("class") or "")]
    assert float(around.get("stroke-width")) == pytest.approx(high)  # of the lines that the cells are
    cells: dict[tuple[int, int], list[tuple[str, str]]] = {}
    for group in root.iter(f"{SVG}g"):
        if group.get("class") != "lx-row":
            continue
        row = int(group.get("data-row"))
        x, y = moved(group)
        assert x == left
        for path in group.findall(f"{SVG}path"):
            for x1, x2, middle in strokes(path.get("d")):
                assert y + middle == pytest.approx(top + (rows - row + 0.5) * high, abs=0.011)
                for column in range(round(x1 / wide), round(x2 / wide)):
                    cells.setdefault((row, column), []).append((path.get("stroke"), ""))
        for text in group.findall(f"{SVG}text"):
            places = [float(x) for x in text.get("x").split()]
            assert len(places) == len(text.text)
            for x, letter in zip(places, text.text, strict=True):
                middle = x / wide - 0.5
                column = round(middle)
                assert middle == pytest.approx(column, abs=0.01)
                at = (row, column)
                cells[at] = [(shade, had + letter) for shade, had in cells[at]]
    return cells


def test_every_stitch_is_painted_once_with_its_symbol() -> None:
    chart = make_chart()
    expected = {
        (row, column): [(KEY[symbol][1], symbol)]
        for row, text in enumerate(chart.grid.rows, 1)
        for column, symbol in enumerate(text)
    }
    assert painted(chart_svg(chart)) == expected


def test_rows_of_unequal_length_are_lined_up_at_the_right() -> None:
    cells = painted(chart_svg(make_chart("BBBB\nWW\nBBBB")))
    assert {column for row, column in cells if row == 2} == {2, 3}


def test_no_stitch_cells_are_grey_and_hold_no_symbol() -> None:
    """As printed charts have them; a slanted stroke there is a decrease (common practice)."""
    svg = chart_svg(make_chart("B..B\nBBBB"))
    assert {column for row, column in painted(svg) if row == 2} == {0, 3}
    [grey] = [p for p in parse(svg).iter(f"{SVG}path") if p.get("class") == "lx-no-stitch"]
    assert grey.get("stroke") == NO_STITCH
    place = chart_geometry(make_chart("B..B\nBBBB"))
    [(x1, x2, y)] = strokes(grey.get("d"))
    assert (x1, x2) == (place.x(1), place.x(3))
    assert y == pytest.approx(place.middle(2), abs=0.011)


def test_each_side_of_a_parted_row_is_a_group_of_its_own() -> None:
    chart = make_chart("BB...WWB\nBBBBWWWB", divide={2: Divide(2, Parting.HOLD)})
    root = parse(chart_svg(chart))
    [above, below] = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-row"]
    assert [g.get("data-half") for g in above] == ["left", "right"]
    middles = {
        g.get("data-half"): sorted(float(x) for t in g.iter(f"{SVG}text") for x in t.get("x").split()) for g in above
    }
    assert middles == {"left": [10, 30], "right": [110, 130, 150]}
    assert not [g for g in below if g.get("data-half")]


@pytest.mark.parametrize(("stitches", "rows"), [(22, 30), (18, 24), (28, 28), (20, 16)])
def test_cells_have_the_proportion_of_the_stitch(stitches: float, rows: float) -> None:
    root = parse(chart_svg(make_chart(stitches=stitches, rows=rows)))
    assert float(root.get("data-cell-width")) == CELL
    assert float(root.get("data-cell-height")) / CELL == pytest.approx(stitches / rows, abs=0.001)


def test_a_mistyped_gauge_still_gives_a_drawing_one_can_see() -> None:
    assert float(parse(chart_svg(make_chart(stitches=22, rows=0.3))).get("data-cell-height")) == 5 * CELL


def test_rows_have_stable_ids_and_sides() -> None:
    root = parse(chart_svg(make_chart(), prefix="moon-"))
    groups = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-row"]
    assert [g.get("id") for g in groups] == [f"moon-row-{row}" for row in range(12, 0, -1)]
    assert [g.get("data-side") for g in groups] == ["WS", "RS"] * 6


def numbers(svg: str) -> dict[int, tuple[float, float]]:
    """Row → (x, y) of its number."""
    [group] = [g for g in parse(svg).iter(f"{SVG}g") if "lx-row-numbers" in (g.get("class") or "")]
    found: dict[int, tuple[float, float]] = {}
    for side in group:
        x, y = moved(side)
        found |= {int(text.text): (x, y + float(text.get("y"))) for text in side}
    return found


def test_row_numbers_stand_where_the_row_begins() -> None:
    chart = make_chart()
    place = chart_geometry(chart)
    found = numbers(chart_svg(chart))
    assert sorted(found) == list(range(1, place.rows + 1))
    for row, (x, y) in found.items():
        assert x > place.x(place.columns) if row % 2 else x < place.x(0)
        assert place.y(row) < y < place.y(row - 1)


def test_rounds_are_all_numbered_at_the_right() -> None:
    chart = make_chart(worked="round", technique="stranded")
    place = chart_geometry(chart)
    assert all(x > place.x(place.columns) for x, _ in numbers(chart_svg(chart)).values())


def test_stitch_numbers_count_from_the_right() -> None:
    chart = make_chart()
    place = chart_geometry(chart)
    [group] = [g for g in parse(chart_svg(chart)).iter(f"{SVG}g") if "lx-stitch-numbers" in (g.get("class") or "")]
    found = {int(t.text): float(t.get("x")) for t in group}
    assert found == {n: pytest.approx(place.x(place.columns - n + 0.5)) for n in (1, 5, 10, 15)}


def test_tenth_lines_are_stronger_than_fifth_and_these_than_the_rest() -> None:
    root = parse(chart_svg(make_chart("B" * 25 + "\n" + "B" * 25)))
    width = {p.get("class"): float(p.get("stroke-width")) for p in root.iter(f"{SVG}path") if p.get("stroke-width")}
    assert width["lx-line"] < width["lx-line5"] < width["lx-line10"]
    place = chart_geometry(make_chart("B" * 25 + "\n" + "B" * 25))
    [tens] = [p.get("d") for p in root.iter(f"{SVG}path") if p.get("class") == "lx-line10"]
    assert [float(x) for x in re.findall(r"M([\d.]+) ", tens)] == [place.x(25 - 20), place.x(25 - 10)]


def test_symbols_can_be_read_on_their_cells() -> None:
    root = parse(chart_svg(make_chart()))
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "lx-row":
            shade = None
            for element in group:
                if element.tag == f"{SVG}path":
                    shade = element.get("stroke")
                else:
                    assert contrast(shade or "", element.get("fill") or "") >= TEXT_CONTRAST


HOSTILE = '</svg><script>alert("1")</script>&amp;\'\x00\x1b\u202e\ud800]]>'


def test_hostile_words_stay_words() -> None:
    chart = make_chart(
        "<&\n>B", {"<": (HOSTILE, "#111111"), "&": ("'", "#222222"), ">": ('"', "#333333")}, title=HOSTILE
    )
    results = [Result("a/b", "k", Level.ERROR, HOSTILE, "f", NOWHERE, 1, (1, 2))]
    svg = chart_svg(chart, results=results, shown=("results",), background=True, key=True)
    assert dangers(svg) == []
    texts = " ".join(parse(svg).itertext())
    assert "<script>alert" in texts
    assert "\x00" not in texts
    assert painted(svg)[2, 0] == [("#111111", "<")]


def test_a_symbol_that_the_key_lacks_is_shown_all_the_same() -> None:
    svg = chart_svg(make_chart("B?\nBB", {"B": KEY["B"]}))
    assert painted(svg)[2, 1] == [("#ffffff", "?")]
    assert "lx-unknown" in svg


@pytest.mark.parametrize("symbol", ["א", "ع", "ก", "́", "𐐀", "漢", "é", "★", "%"])
def test_symbols_of_every_script_are_placed_one_by_one_or_together(symbol: str) -> None:
    svg = chart_svg(make_chart(f"B{symbol}{symbol}\nBBB", {"B": KEY["B"], symbol: KEY["W"]}))
    texts = [t for t in parse(svg).iter(f"{SVG}text") if symbol in (t.text or "")]
    assert sum(len(t.text) for t in texts) == 2
    assert sum(len(t.get("x").split()) for t in texts) == 2


def test_layers_are_there_but_hidden_until_asked_for() -> None:
    chart = make_chart()
    results = [Result("a/b", "k", Level.WARNING, "message", "f", NOWHERE, 3, (2, 4))]
    svg = chart_svg(chart, results=results, plan=make_plan(chart), shown=("floats",))
    layers = {part.get("id"): part for part in parse(svg).iter() if (part.get("id") or "").startswith("layer-")}
    hidden = {name: layer.get("display") for name, layer in layers.items()}
    assert hidden == {"layer-supplies": "none", "layer-floats": None, "layer-ends": "none", "layer-results": "none"}


def test_a_hidden_layer_shows_all_of_itself_when_it_is_shown() -> None:
    """Of a `<switch>` the first child is rendered that can be, and no other (SVG 2, "The switch element")."""
    chart = make_chart()
    results = [Result("a/b", "k", Level.WARNING, "message", "f", NOWHERE, 3, (2, 4))]
    layers = list(parse(chart_svg(chart, results=results, plan=make_plan(chart))).iter(f"{SVG}switch"))
    assert {layer.get("class").split("-")[-1] for layer in layers} >= {"supplies", "ends", "results"}
    assert all([part.tag for part in layer] == [f"{SVG}g"] for layer in layers)


def test_a_result_is_outlined_around_its_stitches() -> None:
    chart = make_chart()
    place = chart_geometry(chart)
    results = [
        Result("a/b", "k", Level.ERROR, "one", "f", NOWHERE, 3, (2, 4)),
        Result("a/b", "k", Level.NOTE, "no row", "f", NOWHERE),
        Result("a/b", "k", Level.NOTE, "accepted", "f", NOWHERE, 3, (2, 4), suppressed=True),
        Result("a/b", "k", Level.NOTE, "beyond", "f", NOWHERE, 99, (2, 4)),
        Result("a/b", "k", Level.WARNING, "whole row", "f", NOWHERE, 5),
    ]
    root = parse(chart_svg(chart, results=results))
    marks = [g for g in root.iter(f"{SVG}g") if "lx-mark" in (g.get("class") or "")]
    assert [(m.get("id"), m.get("class")) for m in marks] == [
        ("mark-0", "lx-mark lx-error"),
        ("mark-4", "lx-mark lx-warning"),
    ]
    box = marks[0].findall(f"{SVG}rect")[-1]
    assert float(box.get("x")) == pytest.approx(place.x(16 - 4) - 1, abs=0.02)
    assert float(box.get("width")) == pytest.approx(3 * CELL + 2, abs=0.02)
    assert float(box.get("y")) == pytest.approx(place.y(3) - 1, abs=0.02)


def test_levels_differ_by_shape_and_dash_as_well_as_by_colour() -> None:
    results = [
        Result("a/b", "k", level, "m", "f", NOWHERE, 3, (2, 4)) for level in (Level.ERROR, Level.WARNING, Level.NOTE)
    ]
    root = parse(chart_svg(make_chart(), results=results))
    marks = [g for g in root.iter(f"{SVG}g") if "lx-mark" in (g.get("class") or "")]
    looks = {
        (m.findall(f"{SVG}rect")[-1].get("stroke-dasharray"), re.sub(r"[\d. ]+", "", m[-1].get("d") or "o"))
        for m in marks
    }
    assert len({dash for dash, _ in looks}) == 3
    assert len({shape for _, shape in looks}) == 3


def test_repeat_box_surrounds_the_repeat() -> None:
    chart = make_chart(repeat=Repeat((4, 13), (2, 9)))
    place = chart_geometry(chart)
    [group] = [g for g in parse(chart_svg(chart)).iter(f"{SVG}g") if g.get("class") == "lx-repeat"]
    box = group.findall(f"{SVG}rect")[-1]
    assert float(box.get("x")) == pytest.approx(place.x(3), abs=0.01)
    assert float(box.get("y")) == pytest.approx(place.y(9), abs=0.01)
    assert float(box.get("width")) == pytest.approx(10 * place.cell_w, abs=0.01)
    assert float(box.get("height")) == pytest.approx(8 * place.cell_h, abs=0.01)


def test_shaping_points_inward_for_fewer_and_outward_for_more() -> None:
    chart = make_chart(shaping={3: Shaping(-2, -1, -1), 5: Shaping(1, 1, None), 7: Shaping(-3), 99: Shaping(1)})
    groups = [g for g in parse(chart_svg(chart)).iter(f"{SVG}g") if g.get("class") == "lx-shaping"]
    triangles = [[re.findall(r"l([-\d.]+)-4z", p.get("d"))[0] for p in g.findall(f"{SVG}path")] for g in groups]
    assert sorted(triangles) == [
        [],
        ["-6.5"],
        ["-6.5"],
        ["6.5"],
    ]  # row 3 has one at either edge, each a mark of its own
    assert [t.text for g in groups for t in g.findall(f"{SVG}text")] == ["−3"]


def test_duplicate_stitches_have_their_colour_and_symbol_beside_the_knitted_ones() -> None:
    chart = make_chart(duplicate=(DuplicateStitch("W", 1, (2, 4)), DuplicateStitch("R", 1, (4, 4))))
    root = parse(chart_svg(chart))
    [group] = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-duplicate"]
    assert [(p.get("fill"), p.get("d").count("M")) for p in group.findall(f"{SVG}path")] == [
        (KEY["R"][1], 1),
        (KEY["W"][1], 2),
    ]
    sewn = sorted(float(t.get("x")) for t in group.findall(f"{SVG}text"))
    assert "".join(sorted(t.text for t in group.findall(f"{SVG}text"))) == "RWW"
    [row] = [g for g in root.iter(f"{SVG}g") if g.get("data-row") == "1"]
    knitted = [float(x) for t in row.findall(f"{SVG}text") for x in t.get("x").split()]
    wide = chart_geometry(chart).cell_w
    assert len(knitted) == chart.grid.width  # none is hidden
    for x in sewn:  # both lie in one cell, side by side
        assert [int(k // wide) for k in knitted].count(int(x // wide)) == 1
        assert min(abs(x - k) for k in knitted) > 0.35 * wide


def test_a_duplicate_stitch_that_misses_the_chart_is_not_drawn() -> None:
    assert "lx-duplicate" not in chart_svg(make_chart(duplicate=(DuplicateStitch("W", 99, (1, 1)),)))


def test_the_same_chart_gives_the_same_bytes() -> None:
    chart = make_chart()
    assert chart_svg(chart, plan=make_plan(chart)) == chart_svg(make_chart(), plan=make_plan(make_chart()))


def test_ids_are_unique_and_a_prefix_must_be_a_word() -> None:
    chart = make_chart()
    svg = chart_svg(chart, plan=make_plan(chart), prefix="a-")
    ids = Counter(re.findall(r' id="([^"]*)"', svg))
    assert set(ids.values()) == {1}
    assert all(name.startswith("a-") for name in ids)
    with pytest.raises(ValueError, match="cannot begin an id"):
        chart_svg(chart, prefix='"><script>')


def test_a_large_chart_stays_small() -> None:
    chart = make_chart("\n".join(("BW" * 60, "WB" * 60) * 80))
    assert len(chart_svg(chart)) < 650_000
    assert len(chart_svg(make_chart("\n".join(["B" * 24] * 24)))) < 13_000


@settings(max_examples=30, deadline=None)
@given(st.lists(st.text("BWRM.", min_size=1, max_size=14), min_size=1, max_size=10))
def test_any_grid_is_painted_cell_by_cell(lines: list[str]) -> None:
    chart = make_chart("\n".join(lines), KEY)
    width = chart.grid.width
    expected = {
        (row, width - len(text) + at): [(KEY[symbol][1], symbol)]
        for row, text in enumerate(reversed(lines), 1)
        for at, symbol in enumerate(text)
        if symbol != "."
    }
    assert painted(chart_svg(chart)) == expected
