"""Words, signs and small parts of drawings by geometry: beside what they are of, and covering nothing."""

import math
import re
from collections.abc import Callable
from itertools import pairwise

import pytest
from drawers import DRAWERS, charts
from drawn import SVG
from lxml import etree
from test_every_drawing import beyond
from test_seen_in_place import plan_of, shade

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.drawing import (
    chart_geometry,
    chart_svg,
    line_up_svg,
    schematic_svg,
    yarn_paths_svg,
)
from lintarsia.drawing.dimensions import dimensions
from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.schematic import scale_for
from lintarsia.drawing.signs import HIGH, WIDE, signs
from lintarsia.drawing.silhouette import silhouette
from lintarsia.planning.planner import make_plan
from soundness import Piece, faults, pieces


def apart(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def test_names_of_yarns_stand_beside_their_joins_and_cover_nothing() -> None:
    chart, plan = plan_of("moon")
    found = pieces(yarn_paths_svg(chart, plan))
    boxes = {p.data["supply"]: p for p in found if "lx-chips" in p.within and p.kind == "rect"}
    words = {p.data["supply"]: p for p in found if "lx-chips" in p.within and p.kind == "text"}
    dots = {p.data["supply"]: p for p in found if "lx-join" in p.within}
    assert set(boxes) == set(words) != set()
    for name, box in boxes.items():
        assert words[name].text == name
        assert words[name].anchor == "middle"
        assert words[name].middle[0] == pytest.approx(box.middle[0], abs=0.1)
        assert box.middle[1] < words[name].middle[1] < box.box[3]
        assert math.dist(box.middle, dots[name].middle) < 24
        assert box.fill == "#fbf8f1"
        assert all(apart(box.box, other.box) for key, other in boxes.items() if key != name)
        small = [(p.middle[0] - 5, p.middle[1] - 5, p.middle[0] + 5, p.middle[1] + 5) for p in dots.values()]
        assert all(apart(box.box, dot) for dot in small)


def test_a_line_up_hangs_its_yarns_in_slots_from_the_right() -> None:
    chart, plan = plan_of("moon")
    row = plan.rows[7]
    found = pieces(line_up_svg(chart, plan, 8))  # type: ignore[arg-type]
    names = [*row.line_up, *row.waiting]
    slots = {name: [p for p in found if p.data.get("supply") == name and "lx-yarn" in p.within] for name in names}
    middles = {name: next(p for p in own if p.text == name).middle[0] for name, own in slots.items()}
    assert sorted(names, key=lambda name: -middles[name]) == names
    steps = [middles[a] - middles[b] for a, b in pairwise(names)]
    assert len({round(step) for step in steps}) == 1
    colours = {supply.id: supply.colour for supply in plan.supplies}
    for name, own in slots.items():
        hung = [p for p in own if p.kind != "text" and "lx-muted" not in p.within]
        assert shade(chart, colours[name]) in {p.stroke for p in hung} | {p.fill for p in hung}
        assert all(abs(p.middle[0] - middles[name]) < 44 for p in own), "nothing reaches into the next slot"
        said = [p.text for p in own if p.kind == "text"]
        assert said[:2] == [name, chart.colours[colours[name]].name]
        notes = ["rests"] if name in row.waiting else [
            word for word, ids in (("new", row.joins), ("last row", row.finishes)) if name in ids
        ]  # fmt: skip
        assert said[2:] == notes
        assert {p.opacity for p in hung if p.width < 12 and p.kind == "path"} == {0.45 if name in row.waiting else 1.0}
        levels = [p.middle[1] for p in own if p.kind == "text"]
        assert levels == sorted(levels)


@pytest.mark.parametrize("name", ["moon", "neck", "odd"])
def test_the_key_has_each_colour_with_its_letter_and_name_in_one_line(name: str) -> None:
    chart = charts()[name]
    found = [p for p in pieces(chart_svg(chart, key=True)) if "lx-key" in p.within]
    texts = [p for p in found if p.kind == "text"]
    patches = [p for p in found if p.kind == "rect" and p.stroke == "#2b2622" and p.width == pytest.approx(1.0)]
    used = [symbol for symbol in chart.colours if any(symbol in row for row in chart.grid.rows)]
    assert [p.fill for p in patches[: len(used)]] == [chart.colours[s].shade for s in used]
    for patch, symbol in zip(patches, used, strict=False):
        left, top, right, foot = patch.box
        (letter,) = (t for t in texts if left < t.middle[0] < right and top < t.middle[1] < foot)
        assert (letter.text, letter.anchor) == (symbol, "middle")
        assert letter.middle[0] == pytest.approx((left + right) / 2, abs=0.1)
        (name_at,) = (t.middle for t in texts if t.text == chart.colours[symbol].name)
        assert right < name_at[0] < right + 12
        assert name_at[1] == pytest.approx(letter.middle[1], abs=1)
    told = [sign.name for sign in signs(chart)]
    for name_of in told:
        (words,) = [t for t in texts if t.text == name_of]
        box = (words.middle[0] - 34, words.middle[1] - 18, words.middle[0] - 4, words.middle[1] + 8)
        drawn = [p for p in found if not apart(p.box, box) and p.kind != "text"]
        assert drawn, f"{name_of} has a drawing at its left"
    lines = sorted({round(t.middle[1]) for t in texts if t.within[-1] == "lx-ink"})
    assert all(abs(b - a - 25) <= 1 for a, b in pairwise(lines))
    shown = {symbol for row in chart.grid.rows for symbol in row} - {NO_STITCH_SYMBOL}
    assert len(lines) == -(-(len(shown) + len(told)) // max(1, int((width_of(chart) - 16) // 168)))


def width_of(chart: Chart) -> float:
    svg = chart_svg(chart, key=True)
    return float(svg.partition('viewBox="0 0 ')[2].split()[0])


@pytest.mark.parametrize("name", ["moon", "neck", "ragged"])
def test_the_drawings_of_signs_fill_their_box_and_no_more(name: str) -> None:
    for sign in signs(charts()[name]):
        svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:g} {HIGH:g}">{sign.drawing}</svg>'
        assert faults(svg) == []
        assert beyond(svg, 0.0) == []
        boxes = [p.box for p in pieces(svg) if p.kind != "text"]
        if boxes:
            wide = max(b[2] for b in boxes) - min(b[0] for b in boxes)
            assert wide >= 18, sign.name


def shaping_of(chart: Chart) -> dict[str, list[Piece]]:
    """What is drawn for each mark, by its words."""
    svg = chart_svg(chart)
    root = etree.fromstring(svg.encode())
    found: dict[str, list[Piece]] = {}
    groups = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-shaping"]
    drawn = [p for p in pieces(svg) if "lx-shaping" in p.within]
    for group in groups:
        title = group.find(f"{SVG}title")
        assert title is not None
        number = len([e for e in group.iter() if e.tag in (f"{SVG}path", f"{SVG}text")])
        found.setdefault(title.text or "", []).extend(drawn[:number])
        drawn = drawn[number:]
    return found


def test_signs_of_shaping_stand_on_the_stitches_that_they_are_of() -> None:
    """Three bound off at the right of row 3 and cast on in row 7, two held at the left of row 4, three of the neck."""
    chart = charts()["neck"]
    found = shaping_of(chart)
    place = chart_geometry(chart)

    def square(row: int, column: int) -> tuple[float, float, float, float]:
        x, y = place.left + column * CELL, place.top + (chart.grid.height - row) * place.cell_h
        return x, y, x + CELL, y + place.cell_h

    assert set(found) == {"bind off 3", "hold 2", "decrease 1", "increase 1", "cast on 3"}
    bound = [line for p in found["bind off 3"] if p.kind == "path" for line in p.lines]
    assert _squares(bound, square) == [(3, 12), (3, 13), (3, 14), (9, 7), (9, 8), (9, 9)]
    cast = [line for p in found["cast on 3"] if p.kind == "path" for line in p.lines]
    assert _squares(cast, square) == [(6, 12), (6, 13), (6, 14)]
    loops = [line for p in found["hold 2"] if p.kind == "path" and p.width < 2 for line in p.lines]
    assert len(loops) <= 2
    counts = [(p.text, p.middle) for name in ("bind off 3", "cast on 3") for p in found[name] if p.kind == "text"]
    assert [text for text, _ in counts] == ["3", "3", "3"]
    for (_, (x, y)), (row, column) in zip(counts, [(4, 13), (10, 8), (5, 13)], strict=True):
        left, top, right, foot = square(row, column)
        assert left < x < right
        assert top < y < foot


def _squares(
    lines: list[list[tuple[float, float]]], square: Callable[[int, int], tuple[float, float, float, float]]
) -> list[tuple[int, int]]:
    """The square that each line lies in, which must be one."""
    found = []
    for line in lines:
        xs, ys = [x for x, _ in line], [y for _, y in line]
        inside = [
            (row, column) for row in range(1, 13) for column in range(15)
            if (s := square(row, column))[0] <= min(xs) and max(xs) <= s[2] and s[1] <= min(ys) and max(ys) <= s[3]
        ]  # fmt: skip
        assert len(inside) == 1, (min(xs), max(xs), min(ys), max(ys))
        assert max(xs) - min(xs) > 0.4 * CELL
        assert max(ys) - min(ys) > 0.2 * (square(1, 0)[3] - square(1, 0)[1])
        found += inside
    return sorted(found)


def test_measures_of_a_schematic_span_what_they_measure() -> None:
    chart = charts()["neck"]
    shape = silhouette(chart)
    scale = scale_for([shape])
    svg = schematic_svg("Front", [shape], scale)
    found = pieces(svg)
    (outline,) = [p for p in found if "lx-piece" in p.within]
    left, top, right, foot = outline.box
    assert max(right - left, foot - top) == pytest.approx(360, abs=0.1)
    measures = [p for p in found if "lx-measure" in p.within]
    spans = {
        (round(line[0][0]), round(line[0][1]), round(line[-1][0]), round(line[-1][1]))
        for p in measures for line in p.lines[:1]
    }  # fmt: skip
    for one in dimensions(shape):
        long = one.mm * scale
        across = [s for s in spans if s[1] == s[3] and abs(abs(s[2] - s[0]) - long) < 1.5]
        upright = [s for s in spans if s[0] == s[2] and abs(abs(s[3] - s[1]) - long) < 1.5]
        assert across if one.across else upright, one.what
    texts = [p for p in found if p.kind == "text"]
    boxes = [_words_box(p) for p in texts]
    for number, box in enumerate(boxes):
        assert all(apart(box, other) for other in boxes[number + 1 :]), texts[number].text
        assert box[0] >= 0
        assert box[2] <= float(svg.partition('viewBox="0 0 ')[2].split()[0])


def _words_box(piece: Piece) -> tuple[float, float, float, float]:
    """As wide as letters of half their height are."""
    (x, y), wide = piece.middle, len(piece.text) * piece.size * 0.5
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[piece.anchor]
    return left, y - piece.size * 0.75, left + wide, y


def test_each_drawing_says_what_it_is() -> None:
    chart = charts()["neck"]
    words = re.compile(r"<title[^>]*>([^<]*)</title><desc[^>]*>([^<]*)</desc>")
    told = {kind: words.findall(svg)[0] for kind, draw in DRAWERS.items() if (svg := draw(chart))}
    titles = {kind: title for kind, (title, _) in told.items()}
    front = "Front &lt;&amp;&gt; &#39;so&#39;"
    assert titles == {
        "chart": f"Chart of {front}", "chart with all layers and its key": f"Chart of {front}",
        "thumbnail": f"Chart of {front}", "fabric": f"{front}, as knitted", "back": f"{front}, wrong side",
        "both sides": f"{front}, wrong side", "paths": f"Yarn paths of {front}", "line-up": "Line-up for row 2 (WS)",
        "supplies": f"{front}: supplies", "floats": f"{front}: floats", "ends": f"{front}: ends",
        "sheet": f"{front}, sheet 1 of 1", "schematic": "Schematic of Front &lt;&amp;&gt;",
    }  # fmt: skip
    size = "15 stitches by 12 rows, intarsia, worked flat. Colours: Shore (A), Dusk blue (B), Moss (7)."
    assert told["chart"][1] == size
    assert told["sheet"][1] == f"stitches 1–15, rows 1–12. {size}"
    plan = make_plan(chart)
    counted = {symbol: of.supplies for symbol, of in plan.colours.items()}
    assert told["paths"][1] == (
        f"{plan.totals.supplies} supplies, at most {plan.totals.most_in_a_row} in a row. "
        f"Shore: {counted['A']}, Dusk blue: {counted['B']}, Moss: {counted['7']}."
    )
