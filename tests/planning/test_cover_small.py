"""The cover against exhaustive search, on charts small enough for it, in every kind of work."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Worked
from lintarsia.chart.grid import build_grid
from lintarsia.planning.cover import Cover, best_cover, match, offers
from lintarsia.planning.runs import RunTable, find_runs


def plain_runs(rows: list[str], leftward: list[bool]) -> list[dict]:
    """Runs read from the text, stitch by stitch, with nothing shared with the package.

    `changed` are the columns that the row gained or lost at the edge where it starts.
    """
    runs: list[dict] = []
    worked = 0
    width = max(map(len, rows))
    stitches = [[(width - len(text) + k, symbol) for k, symbol in enumerate(text) if symbol != "."] for text in rows]
    for r, cells in enumerate(stitches):
        changed: set[int] = set()
        if r and cells and stitches[r - 1]:
            edge = max if leftward[r] else min
            now, was = edge(cells)[0], edge(stitches[r - 1])[0]
            # The columns beyond the nearer of the two edges, up to the farther one.
            inner, outer = sorted((now, was), reverse=not leftward[r])
            changed = set(range(min(inner, outer), max(inner, outer) + 1)) - {inner}
        open_run: dict | None = None
        for column, symbol in reversed(cells) if leftward[r] else cells:
            if open_run is None or open_run["colour"] != symbol:
                open_run = {"row": r, "colour": symbol, "entry": column, "stitches": 0, "start": worked}
                open_run |= {"changed": changed}
                runs.append(open_run)
            open_run["exit"] = column
            open_run["stitches"] += 1
            worked += 1
    return runs


def columns(run: dict) -> set[int]:
    return set(range(min(run["entry"], run["exit"]), max(run["entry"], run["exit"]) + 1))


def travel(a: dict, b: dict) -> int:
    low, high = sorted((a["exit"], b["entry"]))
    return max(0, high - low - len(b["changed"] & set(range(low, high + 1))))


def allowed(a: dict, b: dict, worked: Worked, strand, carry, idle) -> tuple[bool, int, int] | None:
    """(stays in its block, rows waited, stitches carried) for a supply that goes from run a to run b, straight from the
    definition; None where it may not."""
    if a["colour"] != b["colour"] or b["start"] <= a["start"]:
        return None
    between = b["start"] - a["start"] - a["stitches"]
    waited = b["row"] - a["row"] - 1
    everywhere = strand is None and (worked is Worked.ROUND or carry is None)
    stays = everywhere or waited < 0 or (waited == 0 and bool(columns(a) & columns(b)))
    if worked is Worked.ROUND or waited < 0:
        return (stays, max(waited, 0), between) if strand is None or between <= strand else None
    carried = travel(a, b)
    if (carry is None or carried <= carry) and (idle is None or waited <= idle):
        return stays, waited, carried
    return None


def exhaustive(runs: list[dict], worked: Worked, strand, carry, idle) -> tuple[int, int, int, int, list[int]]:
    """Links that do not go on, supplies, idle, carried and `next` of the least of all covers, by trying every one."""
    links = [
        [(j, cost) for j, b in enumerate(runs) if (cost := allowed(a, b, worked, strand, carry, idle))] for a in runs
    ]
    following = [-1] * len(runs)
    totals = [len(runs), len(runs), 0, 0]
    for colour in {run["colour"] for run in runs}:
        members = [i for i, run in enumerate(runs) if run["colour"] == colour]

        @cache
        def best(at: int, taken: frozenset[int], members=tuple(members)) -> tuple:
            if at < 0:
                return (0, 0, 0, 0, ())
            astray, supplies, idle_rows, carried, later = best(at - 1, taken)
            options = [(astray, supplies, idle_rows, carried, (len(runs), *later))]
            for j, (stays, w, c) in links[members[at]]:
                if j not in taken:
                    astray, supplies, idle_rows, carried, later = best(at - 1, taken | {j})
                    options.append((astray - stays, supplies - 1, idle_rows + w, carried + c, (j, *later)))
            return min(options)

        *found, choice = best(len(members) - 1, frozenset())
        totals = [a + b for a, b in zip(totals, found, strict=True)]
        for i, j in zip(reversed(members), choice, strict=True):
            following[i] = j if j < len(runs) else -1
    astray, supplies, idle_rows, carried = totals
    return astray, supplies, idle_rows, carried, following


def totals(cover: Cover) -> tuple[int, int, int, int]:
    astray = len(cover.next) - int(cover.goes_on.sum())
    return astray, cover.supplies, int(cover.idle.sum()), int(cover.carried.sum())


def check_cover(cover: Cover, runs: list[dict], worked: Worked, strand, carry, idle) -> None:
    """Every run worked once, every link allowed and described rightly, numbers in the order of joining."""
    order: dict[int, int] = {}
    per_colour: dict[str, int] = {}
    for i, run in enumerate(runs):
        before = int(cover.previous[i])
        if before < 0:
            assert before == -1
            order[i] = len(order)
            per_colour[run["colour"]] = per_colour.get(run["colour"], 0) + 1
            assert cover.supply[i] == order[i]
            assert cover.number[i] == per_colour[run["colour"]]
        else:
            assert cover.next[before] == i
            assert cover.supply[i] == cover.supply[before]
            assert cover.number[i] == cover.number[before]
        after = int(cover.next[i])
        if after < 0:
            assert after == -1
            assert (cover.carried[i], cover.idle[i], cover.same_row[i], cover.goes_on[i]) == (0, 0, False, False)
        else:
            assert cover.previous[after] == i
            cost = allowed(run, runs[after], worked, strand, carry, idle)
            assert cost == (cover.goes_on[i], cover.idle[i], cover.carried[i])
            assert cover.same_row[i] == (run["row"] == runs[after]["row"])
    assert cover.supplies == len(order)


def in_effect(runs: list[dict], worked: Worked, strand: int | None) -> int | None:
    """In rounds, a strand that no two runs have between them bounds nothing."""
    every = worked is Worked.ROUND and strand is not None and runs and strand >= runs[-1]["start"]
    return None if every else strand


def directions(worked: Worked, first_leftward: bool, height: int) -> list[bool]:
    return [worked is Worked.ROUND or (r % 2 == 0) == first_leftward for r in range(height)]


def table(rows: list[str], leftward: list[bool]) -> RunTable:
    return find_runs(build_grid(rows, "AB"), leftward)


bound = st.none() | st.integers(0, 4)


@st.composite
def small_work(draw):
    symbols = draw(st.sampled_from(["AB", "AB.", "ABC", "AAB.", "A."]))
    widest = draw(st.integers(1, 6))
    rows = draw(
        st.lists(
            st.text(symbols, min_size=1, max_size=widest)
            if draw(st.booleans())
            else st.text(symbols, min_size=widest, max_size=widest),
            min_size=1,
            max_size=6 if widest < 5 else 4,
        )
    )
    worked = draw(st.sampled_from(Worked))
    return rows, worked, draw(st.booleans()), (draw(bound), draw(bound), draw(bound))


@pytest.mark.parametrize("way", ["one by one", "offers first"])
@given(work=small_work())
@settings(max_examples=200, deadline=None)
def test_cover_is_the_least_of_all_covers(way, work):
    """Both ways through the search: the one for small charts, and the opening for large ones on these same charts."""
    rows, worked, first_leftward, bounds = work
    leftward = directions(worked, first_leftward, len(rows))
    runs = plain_runs(rows, leftward)
    strand, carry, idle = bounds
    with pytest.MonkeyPatch.context() as patch:
        if way == "offers first":
            patch.setattr(match, "FEW", 0)
            patch.setattr(offers, "ENOUGH", 0)
        cover = best_cover(table(rows, leftward), worked, strand=strand, carry=carry, idle=idle)
    strand = in_effect(runs, worked, strand)
    check_cover(cover, runs, worked, strand, carry, idle)
    *best, following = exhaustive(runs, worked, strand, carry, idle)
    assert totals(cover) == tuple(best)
    assert cover.next.tolist() == following


@given(small_work())
@settings(max_examples=100, deadline=None)
def test_runs_are_those_read_stitch_by_stitch(work):
    rows, worked, first_leftward, _ = work
    leftward = directions(worked, first_leftward, len(rows))
    grid = build_grid(rows, "AB")
    found = find_runs(grid, leftward)
    expected = plain_runs(rows, leftward)
    for name in ("row", "entry", "exit", "stitches", "start"):
        assert getattr(found, name).tolist() == [run[name] for run in expected], name
    if worked is not Worked.ROUND:
        changed = [set(range(a, b)) for a, b in zip(found.changed_from, found.changed_to, strict=True)]
        assert changed == [run["changed"] for run in expected]
    assert [grid.symbols[c] for c in found.colour] == [run["colour"] for run in expected]
    assert np.array_equal(found.left, np.minimum(found.entry, found.exit))
    assert np.array_equal(found.right, np.maximum(found.entry, found.exit))


BY_STRAND = [(None, 2, 11), (5, 2, 11), (4, 3, 6), (3, 3, 6), (2, 4, 3), (1, 5, 1), (0, 6, 0)]


@pytest.mark.parametrize(("strand", "supplies", "carried"), BY_STRAND)
def test_in_rounds_a_supply_is_stranded_as_far_as_the_bound_and_no_further(strand, supplies, carried):
    """Along the spiral A 1, B 3, A 2 | B 1, A 5 | B 6: A crosses 3 stitches, then 1; B crosses 2, then 5. By hand."""
    runs = find_runs(build_grid(["AABBBA", "AAAAAB", "BBBBBB"], "AB"), [True] * 3)
    cover = best_cover(runs, Worked.ROUND, strand=strand, carry=0, idle=0)
    assert [int(n) for n in runs.stitches] == [1, 3, 2, 1, 5, 6]
    assert (cover.supplies, int(cover.carried.sum())) == (supplies, carried)


def test_nobody_changes_a_cover_or_runs():
    runs = table(["AAB", "BBA"], [True, False])
    for worked in Worked:
        cover = best_cover(runs, worked, strand=0, carry=3, idle=2)
        arrays = [getattr(cover, name) for name in Cover.__slots__ if name != "supplies"]
        arrays += [getattr(runs, name) for name in RunTable.__slots__]
        assert not any(array.flags.writeable for array in arrays)


def test_chart_without_a_stitch_has_no_runs():
    runs = find_runs(build_grid(["..", "."], "A"), [True, False])
    assert len(runs) == 0
    for worked in Worked:
        assert best_cover(runs, worked, strand=0, carry=3, idle=2).supplies == 0
