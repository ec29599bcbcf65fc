"""Links against the definition, pair by pair, whichever way they are looked for."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart.grid import build_grid
from lintarsia.planning.cover import links
from lintarsia.planning.cover.links import LinkTable, possible_links
from lintarsia.planning.runs import RunTable, find_runs

Row = tuple[int, int, bool, int, int]


def allowed(runs: RunTable, strand: int | None, carry: int | None, idle: int | None) -> list[Row]:
    """(tail, head, stays in its block, idle, carried) of every allowed link, in order."""
    found = []
    for a in range(len(runs)):
        for b in range(a + 1, len(runs)):
            if runs.colour[a] != runs.colour[b] or (runs.side[a] and runs.side[b] and runs.side[a] != runs.side[b]):
                continue
            waited = int(runs.row[b] - runs.row[a]) - 1
            if waited < 0:
                between = int(runs.start[b] - runs.start[a] - runs.stitches[a])
                if strand is None or between <= strand:
                    found.append((a, b, True, 0, between))
            else:
                low, high = sorted((int(runs.entry[b]), int(runs.exit[a])))
                changed = range(runs.changed_from[b], runs.changed_to[b])
                apart = max(0, high - low - sum(low <= column <= high for column in changed))
                shares = max(runs.left[a], runs.left[b]) <= min(runs.right[a], runs.right[b])
                if (carry is None or apart <= carry) and (idle is None or waited <= idle):
                    found.append((a, b, waited == 0 and bool(shares), waited, apart))
    return found


def rows_of(table: LinkTable) -> list[Row]:
    parts = (table.tail, table.head, table.goes_on, table.idle, table.carried)
    return list(zip(*(part.tolist() for part in parts), strict=True))


BOUND = st.none() | st.integers(0, 5)
GRIDS = st.tuples(st.integers(1, 9), st.sampled_from(["AABC.", "AB..."])).flatmap(
    lambda pair: st.lists(st.text(pair[1], min_size=pair[0], max_size=pair[0]), min_size=1, max_size=7)
)


@pytest.mark.parametrize("near", [0, 10**6], ids=["bisecting", "looking around"])
@settings(max_examples=150)
@given(GRIDS, st.booleans(), st.none() | st.tuples(st.integers(0, 9), st.integers(0, 6)), BOUND, BOUND, BOUND)
def test_links_are_those_of_the_definition(
    near: int,
    rows: list[str],
    first: bool,
    parted: tuple[int, int] | None,
    strand: int | None,
    carry: int | None,
    idle: int | None,
) -> None:
    """`parted` is a column from which on, and a row from which up, the work is in two sides."""
    sides = None
    if parted:
        column, row = np.indices((len(rows), len(rows[0])))[::-1]
        sides = np.where(row >= parted[1], 1 + (column >= parted[0]), 0)
    runs = find_runs(build_grid(rows, "ABC"), [(number % 2 == 0) == first for number in range(len(rows))], sides)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(links, "NEAR", near)
        table = possible_links(runs, strand=strand, carry=carry, idle=idle)
    assert rows_of(table) == allowed(runs, strand, carry, idle)
    assert {part.dtype for part in (table.tail, table.head)} == {np.dtype(np.int64)}


def test_which_way_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three rows ahead and three columns to each side are 21 places; one more column and row make 36, 81 is too far."""
    runs = find_runs(build_grid(["ABAB"] * 30, "AB"), [number % 2 == 0 for number in range(30)])
    taken = []
    for name in ("look_around", "look_up"):
        way: Callable[..., Any] = getattr(links, name)

        def note(*given: Any, name: str = name, way: Callable[..., Any] = way) -> Any:
            taken.append((name, given[1:]))
            return way(*given)

        monkeypatch.setattr(links, name, note)
    for carry, idle in ((3, 2), (0, 29), (None, 2), (4, 6), (4, 7)):
        possible_links(runs, strand=0, carry=carry, idle=idle)
    assert taken == [
        ("look_around", (3, 2)),  # 3 rows × 7 places
        ("look_around", (0, 29)),
        ("look_around", (4, 2)),  # the chart is 4 wide
        ("look_around", (4, 6)),  # 63 places
        ("look_up", (4, 7)),
    ]
