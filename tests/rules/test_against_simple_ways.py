"""Rules on rows, floats and touching colours against the plainest way to find the same, stitch by stitch."""

import re
from collections.abc import Iterator
from itertools import groupby

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, Gauge, Limits, Places, Shaping, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.result import Region
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.grid import stitch_count as grid_stitch_count
from lintarsia.rules.shared.floats import floats
from lintarsia.rules.shared.touching import first_touch, touching_pairs
from lintarsia.rules.supply import row_limit as supply_row_limit


def chart(rows: list[str], **said: object) -> Chart:
    """A chart of the rows, bottom-up."""
    colours = {symbol: Colour(symbol, symbol, "#000000") for symbol in "BWR"}
    places = Places(lines=tuple(Region(1, 1, 1, len(row) + 1) for row in rows))
    return Chart("x", "x", Gauge(22, 30, Length(10, "cm")), colours, build_grid(rows, "BWR"), places=places, **said)  # type: ignore[arg-type]


def grids(symbols: str, narrowest: int = 1, lowest: int = 1) -> st.SearchStrategy[list[str]]:
    return st.integers(narrowest, 10).flatmap(
        lambda width: st.lists(st.text(symbols, min_size=width, max_size=width), min_size=lowest, max_size=7)
    )


# Stitch counts ----------------------------------------------------------------------------------------------------

SHAPED = st.lists(st.integers(-2, 2), min_size=4, max_size=9)


def shaped(changes: list[int]) -> tuple[list[int], dict[int, Shaping]]:
    """Stitch counts from 20 up or down by each change, and the shaping that says so."""
    counts = [20]
    for change in changes:
        counts.append(counts[-1] + change)
    return counts, {row: Shaping(change) for row, change in enumerate(changes, 2) if change}


def slips(counts: list[int], shaping: dict[int, Shaping]) -> list[tuple[str, int | None]]:
    rows = ["B" * count + "." * (60 - count) for count in counts]
    work = Work(chart(rows, shaping=shaping))
    return [(finding.key, finding.row) for finding in grid_stitch_count.check(work, NoOptions())]


@given(SHAPED)
def test_declared_shaping_is_no_slip(changes: list[int]) -> None:
    assert slips(*shaped(changes)) == []


@given(SHAPED, st.data(), st.sampled_from([-3, -1, 1, 3]), st.booleans())
def test_one_slip_is_one_result(changes: list[int], data: st.DataObject, slip: int, stays: bool) -> None:
    """Whether the rows above go on as if nothing had happened or keep what the slip left."""
    counts, shaping = shaped(changes)
    row = data.draw(st.integers(2, len(counts)))
    for index in range(row - 1, len(counts) if stays else row):
        counts[index] += slip
    assert slips(counts, shaping) == [("row-too-long" if slip > 0 else "row-too-short", row)]


@given(SHAPED, st.data())
def test_undeclared_shaping_is_one_result_at_its_row(changes: list[int], data: st.DataObject) -> None:
    counts, shaping = shaped(changes)
    assume(shaping)
    row = data.draw(st.sampled_from(sorted(shaping)))
    del shaping[row]
    assert [found for _, found in slips(counts, shaping)] == [row]


# Supplies a row ---------------------------------------------------------------------------------------------------


@given(grids("BWR"), st.integers(1, 5))
def test_an_intarsia_row_needs_a_supply_for_each_block(rows: list[str], limit: int) -> None:
    work = Work(chart(rows, limits=Limits(supplies=limit)))
    blocks = [len(list(groupby(row))) for row in rows]
    found = list(supply_row_limit.check(work, supply_row_limit.Options()))
    over = [row for row, count in enumerate(blocks, 1) if count > limit]
    assert len(found) == bool(over)
    for finding in found:
        assert finding.row == blocks.index(max(blocks)) + 1
        named = re.findall(r"(\d+)(?:–(\d+))?", finding.message.partition(" need")[0])
        assert [row for a, b in named for row in range(int(a), int(b or a) + 1)] == over
        assert f"{max(blocks)} supplies" in finding.message


# Floats -----------------------------------------------------------------------------------------------------------


def worked(rows: list[str], leftward: list[bool]) -> Iterator[tuple[int, int, str]]:
    """(row, column, symbol) of every stitch in working order."""
    for row, text in enumerate(rows):
        columns = range(len(text) - 1, -1, -1) if leftward[row] else range(len(text))
        for column in columns:
            if text[column] != ".":
                yield row, column, text[column]


def changed_where_it_starts(rows: list[str], row: int, leftward: bool) -> set[int]:
    """The columns between the edge at which a row starts and that edge of the row below."""
    ends = []
    for text in rows[row - 1 : row + 1]:
        stitches = [column for column, symbol in enumerate(text) if symbol != "."]
        if not stitches:
            return set()
        ends.append(stitches[-1] if leftward else stitches[0])
    low, high = sorted(ends)
    return set(range(low + 1, high + 1) if leftward else range(low, high))


def simple_floats(rows: list[str], leftward: list[bool], ring: bool) -> list[tuple[int, int, str]]:
    """(row it ends in, stitches crossed, kind) of every float of stranded work, by walking from stitch to stitch.

    What a row gains or loses at the edge where it starts, a yarn works on its way from the row before: no float.
    """
    found = []
    last: dict[str, tuple[int, int, int]] = {}
    for number, (row, column, symbol) in enumerate(worked(rows, leftward)):
        if symbol in last:
            before_row, before_column, before = last[symbol]
            rests = row - before_row - 1
            apart = abs(column - before_column)
            if row == before_row:
                crossed, kind = number - before - 1, "in-row"
            elif ring and rests == 0:
                crossed, kind = number - before - 1, "round-seam"
            else:
                crossed, kind = min(apart, len(rows[0]) - apart) if ring else apart, "between-rows"
                if not ring:
                    way = set(range(min(column, before_column), max(column, before_column) + 1))
                    crossed = max(0, crossed - len(way & changed_where_it_starts(rows, row, leftward[row])))
            if crossed and rests <= 2:
                found.append((row + 1, crossed, kind))
        last[symbol] = (row, column, number)
    return sorted(found)


@pytest.mark.parametrize("how", [Worked.FLAT, Worked.ROUND, Worked.TURNED])
@given(rows=grids("BWR."))
def test_floats_of_stranded_work(how: Worked, rows: list[str]) -> None:
    made = chart(rows, worked=how, technique=Technique.STRANDED)
    found = sorted((f.row, f.crossed, f.kind) for f in floats(Work(made)))
    leftward = [made.leftward(row) for row in range(1, len(rows) + 1)]
    assert found == simple_floats(rows, leftward, how is Worked.ROUND)


@pytest.mark.parametrize("how", [Worked.FLAT, Worked.ROUND])
@given(rows=grids("BW"))
def test_a_float_in_a_row_crosses_the_stitches_it_names(how: Worked, rows: list[str]) -> None:
    made = chart(rows, worked=how, technique=Technique.STRANDED)
    for crossing in floats(Work(made)):
        first, last = crossing.stitches
        assert 1 <= first <= last <= len(rows[0])
        if crossing.kind == "in-row":
            assert last - first + 1 == crossing.crossed
            assert len(set(made.grid.text(crossing.row, first, last))) == 1


# Touching colours -------------------------------------------------------------------------------------------------


@given(grids("BWR."), st.sampled_from([Worked.FLAT, Worked.TURNED]))
def test_touching_pairs(rows: list[str], how: Worked) -> None:
    made = chart(rows, worked=how)
    width = len(rows[0])
    wanted = set()
    for row, text in enumerate(rows):
        for column, symbol in enumerate(text):
            near = [text[column + 1]] if column + 1 < width else [text[0]] if made.tube else []
            near += [rows[row + 1][column]] if row + 1 < len(rows) else []
            wanted |= {tuple(sorted(("BWR".index(symbol), "BWR".index(o)))) for o in near if "." not in (symbol, o)}
    assert touching_pairs(Work(made)) == {pair for pair in wanted if pair[0] != pair[1]}


@given(grids("BWR"))
def test_where_two_colours_first_touch(rows: list[str]) -> None:
    made = chart(rows)
    for one, two in touching_pairs(Work(made)):
        place = first_touch(made, one, two)
        assert place is not None
        row, (first, last) = place
        here = made.grid.text(row, first, last)
        below = made.grid.text(row - 1, first, last) if first == last else ""
        assert set(here + below) == {"BWR"[one], "BWR"[two]}
