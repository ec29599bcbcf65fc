"""The supplies' lines: through every stitch of every run, in order, and linked where yarns interlock."""

import itertools
import re

import pytest
from drawn import MOON, PILLAR, SVG, dangers, make_chart, moved, parse
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart
from lintarsia.drawing import yarn_paths_svg
from lintarsia.drawing.geometry import geometry
from lintarsia.drawing.routes import Route, routes
from lintarsia.planning.planner import make_plan

Point = tuple[float, float]
STEPS = 24


def flatten(path: str) -> list[list[Point]]:
    """Sub-paths as points, curves in small steps, for the commands the routes use. Rounded as the steps are written."""
    lines: list[list[Point]] = []
    at = (0.0, 0.0)
    for command, numbers in re.findall(r"([MmHhc])([^MmHhc]*)", path):
        values = [float(v) for v in re.findall(r"-?[\d.]+", numbers)]
        if command == "M":
            at = (values[0], values[1])
            lines.append([at])
        elif command == "m":
            at = (round(at[0] + values[0], 2), round(at[1] + values[1], 2))
            lines.append([at])
        elif command in "Hh":
            at = (values[0] + (at[0] if command == "h" else 0), at[1])
            lines[-1].append(at)
        else:
            steps = zip(values[::2], values[1::2], strict=True)
            points = [at, *[(round(at[0] + x, 2), round(at[1] + y, 2)) for x, y in steps]]
            for step in range(1, STEPS + 1):
                t = step / STEPS
                weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                lines[-1].append(
                    (
                        sum(w * p[0] for w, p in zip(weights, points, strict=True)),
                        sum(w * p[1] for w, p in zip(weights, points, strict=True)),
                    )
                )
            at = lines[-1][-1] = points[3]
    return lines


def drawn(chart: Chart) -> list[Route]:
    return routes(chart, make_plan(chart), geometry(chart))


def check_runs(chart: Chart) -> None:
    """Each pass of each route lies in the row of its run and reaches from one end of it to the other."""
    plan = make_plan(chart)
    place = geometry(chart)
    for way in routes(chart, plan, place):
        passes = [line for line in flatten(way.passes) if len(line) > 1]
        at = 0
        for number, index in enumerate(way.supply.runs):
            run = plan.runs[index]
            xs, ys = zip(*passes[at], strict=True)
            at += 1
            first, last = number == 0, number == len(way.supply.runs) - 1
            slack = place.cell_w / 2 + 0.02
            # a join begins, and a finish ends, in the middle of its stitch
            assert min(xs) <= place.x(run.left) + (slack if first or last else 0.02)
            assert max(xs) >= place.x(run.right + 1) - (slack if first or last else 0.02)
            assert all(place.y(run.row) < y < place.y(run.row - 1) for y in ys)
            way_found = -1 if xs[0] > xs[-1] else 1
            if run.right > run.left:
                assert way_found == (-1 if chart.leftward(run.row) else 1)
        assert at == len(passes)


def test_every_run_is_passed_through_in_its_row_and_direction() -> None:
    check_runs(make_chart(MOON))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.text("BWR", min_size=7, max_size=7), min_size=1, max_size=7),
    st.sampled_from(["intarsia", "stranded", "mixed"]),
    st.sampled_from(["flat", "turned"]),
)
def test_any_flat_chart_is_passed_through(lines: list[str], technique: str, worked: str) -> None:
    check_runs(make_chart("\n".join(lines), technique=technique, worked=worked))


def test_turns_lead_from_where_one_run_ends_to_where_the_next_begins() -> None:
    chart = make_chart(MOON)
    for way in drawn(chart):
        ends = [line[-1] for line in flatten(way.passes) if len(line) > 1]
        starts = [line[0] for line in flatten(way.passes) if len(line) > 1]
        loose = flatten(way.turns) + flatten(way.floats)
        assert sorted((line[0], line[-1]) for line in loose) == sorted(zip(ends[:-1], starts[1:], strict=True))


def crossings(one: list[Point], other: list[Point]) -> list[Point]:
    """Where two lines cross, by testing every pair of their small steps."""
    found = []
    for (a, b), (c, d) in itertools.product(itertools.pairwise(one), itertools.pairwise(other)):
        across = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
        if not across:
            continue
        t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / across
        u = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / across
        if 0 <= t < 1 and 0 <= u < 1:
            found.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
    return found


def test_yarns_link_at_every_interlock() -> None:
    # In each inner row one yarn's turn passes under the other's line on the other's side, and the other way about:
    # two crossings, one with each yarn beneath, which is what makes a link and not a mere overlap.
    chart = make_chart(PILLAR)
    ways = {way.supply.id: way for way in drawn(chart)}
    blue, white = ways["B1"], ways["W1"]
    place = geometry(chart)
    boundary = place.x(4)
    under: dict[str, list[tuple[float, float]]] = {"blue": [], "white": []}
    for name, turning, passing in (("blue", blue, white), ("white", white, blue)):
        for turn in flatten(turning.turns):
            if abs(turn[0][0] - boundary) < 1:
                for line in flatten(passing.passes):
                    under[name] += crossings(turn, line)
    rows = range(1, 7)
    for row in rows:
        in_row = {n: [p for p in ps if place.y(row) < p[1] < place.y(row - 1)] for n, ps in under.items()}
        both_turn = 1 < row < 6
        assert [len(in_row["blue"]), len(in_row["white"])] == [1, 1] or not both_turn
        # blue lies at the left, so its turns reach over the boundary to the right, and white's to the left
        assert all(x > boundary for x, _ in in_row["blue"])
        assert all(x < boundary for x, _ in in_row["white"])


def test_a_stranded_float_sags_beneath_the_row_it_lies_behind() -> None:
    chart = make_chart("BWWWB\nBWWWB", worked="flat", technique="stranded")
    floats = [line for way in drawn(chart) for line in flatten(way.floats)]
    assert len(floats) == 2
    for line in floats:
        assert max(y for _, y in line) > line[0][1]


def test_rounds_leave_at_the_left_and_come_in_at_the_right() -> None:
    chart = make_chart("BBBB\nBBBB", worked="round", technique="stranded")
    place = geometry(chart)
    [way] = drawn(chart)
    xs = [x for line in flatten(way.passes) for x, _ in line]
    assert min(xs) < place.x(0)
    assert max(xs) > place.x(place.columns)
    assert way.turns == ""


def test_gaps_are_where_a_block_begins_or_ends_beside_another() -> None:
    place = geometry(make_chart("BBBB\nBWWB\nBBBB"))
    ways = {w.supply.id: w for w in drawn(make_chart("BBBB\nBWWB\nBBBB"))}
    # white is worked once, leftward or rightward, and touches blue at both its ends
    assert sorted(x for x, _ in ways["W1"].gaps) == [place.x(1), place.x(3)]
    assert all(way.gaps == () for way in drawn(make_chart("BB\nBB")))


def test_the_picture_marks_each_join_and_finish_and_names_supplies() -> None:
    chart = make_chart(title="<Moon> & \x00")
    plan = make_plan(chart)
    svg = yarn_paths_svg(chart, plan, prefix="p-")
    root = parse(svg)
    assert dangers(svg) == []
    for kind in ("lx-join", "lx-finish"):
        assert sum(mark.get("class") == kind for mark in root.iter(f"{SVG}use")) == plan.totals.supplies
    assert {g.get("data-supply") for g in root.iter(f"{SVG}g")} - {None} == {s.id for s in plan.supplies}
    shapes = {element.get("id") for element in root.iter()} - {None}
    assert {use.get("href")[1:] for use in root.iter(f"{SVG}use")} <= shapes
    ids = re.findall(r' id="([^"]*)"', svg)
    assert len(ids) == len(set(ids))


def test_labels_do_not_cover_one_another() -> None:
    chart = make_chart("\n".join(["BWRMBWRM" * 4] * 3))
    root = parse(yarn_paths_svg(chart, make_plan(chart)))
    [chips] = [group for group in root.iter(f"{SVG}g") if group.get("class") == "lx-chips"]
    sizes = {
        rect.get("id"): [float(rect.get(k)) for k in ("x", "y", "width", "height")] for rect in chips.iter(f"{SVG}rect")
    }
    boxes = []
    for chip in chips.findall(f"{SVG}g"):
        x, y = moved(chip)
        left, top, wide, high = sizes[chip.find(f"{SVG}use").get("href")[1:]]
        boxes.append((x + left, y + top, x + left + wide, y + top + high))
    assert len(boxes) > 4
    for one, other in itertools.combinations(boxes, 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


@pytest.mark.parametrize("text", ["B", "B\nB", "BW\n.B", "...\nBBB"])
def test_small_and_holed_charts_can_be_drawn(text: str) -> None:
    chart = make_chart(text)
    assert dangers(yarn_paths_svg(chart, make_plan(chart))) == []
