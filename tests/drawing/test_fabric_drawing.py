"""The fabric: one stitch a vertex, none lost, none doubled; the back mirrored; bytes bounded."""

import re
from collections import Counter

import pytest
from drawn import KEY, SVG, dangers, make_chart, parse
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, DuplicateStitch
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.drawing import fabric_svg
from lintarsia.publishing.drawing.fabric import TOO_MANY


def knitted(svg: str) -> Counter[tuple[float, float, str]]:
    """How often each (x, y, shade) has a stitch, by walking the paths as a renderer does: a marker at every vertex."""
    root = parse(svg)
    shade = {m.get("id"): m.get("fill") or m[1].get("stroke") for m in root.iter(f"{SVG}marker")}
    found: Counter[tuple[float, float, str]] = Counter()
    for path in root.iter(f"{SVG}path"):
        if not path.get("marker-mid"):
            continue
        assert path.get("marker-start") == path.get("marker-mid") == path.get("marker-end")
        name = path.get("marker-mid")[5:-1]
        x = y = 0.0
        vertices: set[tuple[float, float]] = set()
        for command, numbers in re.findall(r"([Mmh])([-\d. ]+)", path.get("d")):
            values = [float(v) for v in numbers.split()]
            if command == "M":
                x, y = values
                vertices.add((x, y))
            elif command == "m":
                x, y = x + values[0], y + values[1]
                vertices.add((round(x, 2), y))
            else:
                for step in values:
                    x = round(x + step, 2)
                    vertices.add((x, y))
        found.update((round(vx, 1), round(vy, 1), shade[name]) for vx, vy in vertices)
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

    def heights(svg: str) -> list[float]:
        return [
            float(p.get("d").split()[1].split("h")[0]) for p in parse(svg).iter(f"{SVG}path") if p.get("marker-mid")
        ]

    assert heights(fabric_svg(chart)) == sorted(heights(fabric_svg(chart)), reverse=True)
    assert heights(fabric_svg(chart, back=True)) == sorted(heights(fabric_svg(chart, back=True)))


def test_the_back_shows_two_ends_for_each_supply() -> None:
    chart = make_chart()
    plan = make_plan(chart)
    root = parse(fabric_svg(chart, back=True, plan=plan))
    [loose] = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-loose"]
    tails = [p.get("d") for p in loose if "c" in p.get("d")]
    # each tail is drawn by four strokes: shadow, edge, yarn, gleam
    assert sum(d.count("M") for d in tails) == 4 * 2 * plan.totals.supplies


def test_floats_cross_the_back_of_a_stranded_fabric() -> None:
    chart = make_chart("BWWB\nBWWB", worked="round", technique="stranded")
    root = parse(fabric_svg(chart, back=True, plan=make_plan(chart)))
    [loose] = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-loose"]
    assert any("C" in (p.get("d") or "") for p in loose)


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
