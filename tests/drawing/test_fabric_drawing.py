"""The fabric: one stitch a vertex, none lost, none doubled; the back mirrored; bytes bounded."""

import itertools
import re
from collections import Counter

import pytest
from drawn import KEY, SVG, dangers, make_chart, parse
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree

from lintarsia.chart import Chart, DuplicateStitch
from lintarsia.drawing import fabric_svg
from lintarsia.drawing.fabric import TOO_MANY
from lintarsia.planning.planner import make_plan


def set_paths(root: etree._Element) -> tuple[tuple[float, float, float, float], list[etree._Element]]:
    """Where the stitches' paths are counted from and in what, (x, y, width, height), and these paths."""
    paths = [path for path in root.iter(f"{SVG}path") if path.get("marker-mid")]
    [group] = {path.getparent() for path in paths}
    found = re.fullmatch(r"translate\(([\d.]+) ([\d.]+)\)scale\(([\d.]+) ([\d.]+)\)", group.get("transform"))
    assert found
    left, top, wide, high = map(float, found.groups())
    return (left, top, wide, high), paths


def knitted(svg: str) -> Counter[tuple[float, float, str]]:
    """How often each (x, y, shade) has a stitch, by walking the paths as a renderer does: a marker at every vertex but
    the first and the last, in units of which each stitch is drawn with the reverse scale."""
    root = parse(svg)
    if root.find(f".//{SVG}path[@marker-mid]") is None:  # a chart of no-stitch cells alone
        return Counter()
    (left, top, wide, high), paths = set_paths(root)
    shade = {}
    for marker in root.iter(f"{SVG}marker"):
        uses = [use.get("stroke") for use in marker.iter(f"{SVG}use")]
        shade[marker.get("id")] = marker.get("fill") if marker.get("fill") != "none" else uses[3]
        [(across, down)] = re.findall(r"^scale\(([\d.]+) ([\d.]+)\)$", marker[0].get("transform"))
        assert (float(across) * wide, float(down) * high) == pytest.approx((1, 1), rel=1e-5)
    found: Counter[tuple[float, float, str]] = Counter()
    for path in paths:
        name = path.get("marker-mid")[5:-1]
        x = y = 0.0
        vertices: list[tuple[float, float]] = []
        for command, numbers in re.findall(r"([MLh])([-\d. ]+)", path.get("d")):
            values = [float(v) for v in numbers.split()]
            if command != "h":
                x, y = values
                vertices.append((x, y))
                continue
            for step in values:
                x += step
                vertices.append((x, y))
        found.update((round(left + vx * wide, 1), round(top + vy * high, 1), shade[name]) for vx, vy in vertices[1:-1])
    return found


def expected(chart: Chart, svg: str) -> Counter[tuple[float, float, str]]:
    root = parse(svg)
    high = 20 * chart.gauge.stitches / chart.gauge.rows
    top = round(high * 0.75, 4) + 2
    out: Counter[tuple[float, float, str]] = Counter()
    for row, text in enumerate(chart.grid.rows, 1):
        for at, symbol in enumerate(text):
            if symbol != ".":
                column = chart.grid.width - len(text) + at
                y = top + (chart.grid.height - row) * round(high, 2)
                out[round(3 + 20 * (column + 0.5), 1), round(y, 1), KEY[symbol][1]] += 1
    assert float(root.get("viewBox").split()[2]) == 6 + 20 * chart.grid.width
    return out


def rounded(stitches: Counter[tuple[float, float, str]]) -> list[tuple[int, int, str]]:
    return sorted((round(x), round(y), shade) for x, y, shade in stitches.elements())


@settings(max_examples=40, deadline=None)
@given(st.lists(st.text("BWRM.", min_size=1, max_size=12), min_size=1, max_size=8))
def test_every_stitch_is_knitted_once(lines: list[str]) -> None:
    chart = make_chart("\n".join(lines), KEY, stitches=20, rows=25)
    svg = fabric_svg(chart)
    assert rounded(knitted(svg)) == rounded(expected(chart, svg))


def test_the_back_has_the_same_stitches_mirrored() -> None:
    chart = make_chart()
    front, back = fabric_svg(chart), fabric_svg(chart, back=True)
    assert len(list(knitted(front).elements())) == len(list(knitted(back).elements())) == 16 * 12
    group = parse(back).find(f"{SVG}g")
    wide = parse(back).get("width")
    assert group.get("transform") == f"translate({wide} 0)scale(-1 1)"


def test_rows_overlap_upward_on_the_front_and_downward_on_the_back() -> None:
    chart = make_chart("B\nB\nB")

    def order(svg: str) -> list[int]:
        """The upper edges of the stitches, in the order they are drawn."""
        _, paths = set_paths(parse(svg))
        return [int(y) for path in paths for _, y in re.findall(r"L(\d+) (\d+)", path.get("d"))]

    assert order(fabric_svg(chart)) == [2, 1, 0]
    assert order(fabric_svg(chart, back=True)) == [0, 1, 2]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.text("BWR.", min_size=4, max_size=6), min_size=2, max_size=8), st.booleans())
def test_a_stitch_is_drawn_after_those_it_lies_on(lines: list[str], back: bool) -> None:
    """Whatever the colours, and though the stitches of many rows share a path."""
    chart = make_chart("\n".join(lines), KEY)
    _, paths = set_paths(parse(fabric_svg(chart, back=back)))
    drawn: dict[tuple[int, int], int] = {}
    for path in paths:
        for first, y, steps in re.findall(r"L(\d+) (\d+)(?:h([\d ]+))?", path.get("d").removesuffix("h1")):
            columns = list(itertools.accumulate([int(first), *map(int, steps.split())]))
            drawn |= {(int(y), column): len(drawn) + n for n, column in enumerate(columns)}
    stitches = sum(symbol != "." for line in lines for symbol in line)
    assert len(drawn) == stitches
    for (y, column), turn in drawn.items():
        beneath = drawn.get((y - 1 if back else y + 1, column))
        assert beneath is None or beneath < turn


def test_a_plain_piece_with_a_motif_takes_few_paths() -> None:
    _, paths = set_paths(parse(fabric_svg(make_chart("\n".join(["BBBBBBBB", "BBBWWBBB", "BBWWWWBB", "BBBBBBBB"] * 3)))))
    assert len(paths) <= 2 * 6 + 1


def test_the_back_shows_two_ends_for_each_supply() -> None:
    chart = make_chart()
    plan = make_plan(chart)
    root = parse(fabric_svg(chart, back=True, plan=plan))
    [loose] = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-loose"]
    strands = {p.get("id"): p for p in loose.iter(f"{SVG}path")}
    thickest = max(float(p.getparent().get("stroke-width")) for p in strands.values())  # ends lie over the rest
    tails = [p.get("d") for p in strands.values() if float(p.getparent().get("stroke-width")) == thickest]
    assert sum(d.count("M") for d in tails) == 2 * plan.totals.supplies
    # over its shadow each is drawn three times more: edge, yarn, gleam
    assert Counter(use.get("href")[1:] for use in loose.iter(f"{SVG}use")) == dict.fromkeys(strands, 3)


def test_floats_cross_the_back_of_a_stranded_fabric() -> None:
    chart = make_chart("BWWB\nBWWB", worked="round", technique="stranded")
    root = parse(fabric_svg(chart, back=True, plan=make_plan(chart)))
    [loose] = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-loose"]
    assert any("c" in p.get("d") for p in loose.iter(f"{SVG}path"))


def test_duplicate_stitches_lie_over_the_knitted_ones() -> None:
    chart = make_chart(duplicate=(DuplicateStitch("W", 1, (2, 4)),))
    with_, without = knitted(fabric_svg(chart)), knitted(fabric_svg(make_chart()))
    assert sorted(shade for _, _, shade in (with_ - without).elements()) == [KEY["W"][1]] * 3


def test_two_fabrics_on_a_page_cannot_lend_each_other_the_wrong_stitch() -> None:
    one = parse(fabric_svg(make_chart("BW", {"B": KEY["B"], "W": KEY["W"]})))
    other = parse(fabric_svg(make_chart("BW", {"B": KEY["R"], "W": KEY["M"]})))
    names = [{m.get("id") for m in root.iter(f"{SVG}marker")} for root in (one, other)]
    assert not names[0] & names[1]


@pytest.mark.parametrize("back", [False, True])
def test_a_large_fabric_stays_small(back: bool) -> None:
    checkered = make_chart("\n".join(("BW" * 60, "WB" * 60) * 80))
    assert len(fabric_svg(checkered, back=back)) < 400_000
    assert len(fabric_svg(make_chart("\n".join(["B" * 24] * 24)), back=back)) < 8_000


def test_a_fabric_too_fine_to_see_is_thinned_and_keeps_its_proportion() -> None:
    chart = make_chart("\n".join(["BW" * 300] * 400))
    svg = fabric_svg(chart)
    assert sum(knitted(svg).values()) <= TOO_MANY
    _, _, wide, high = (float(v) for v in parse(svg).get("viewBox").split())
    assert high / wide == pytest.approx(400 * 22 / 30 / 600, rel=0.05)
    assert "600 stitches by 400 rows" in svg


def test_hostile_titles_stay_titles() -> None:
    svg = fabric_svg(make_chart(title="</title><script>1</script>\x00"))
    assert dangers(svg) == []
    assert parse(svg)[0].text.startswith("</title><script>")
