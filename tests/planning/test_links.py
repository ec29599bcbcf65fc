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

Row = tuple[int, int, int, int]


def allowed(runs: RunTable, strand: int | None, carry: int | None, idle: int | None) -> list[Row]:
    """(tail, head, carried, idle) of every allowed link, in order."""
    found = []
    for a in range(len(runs)):
        for b in range(a + 1, len(runs)):
            if runs.colour[a] != runs.colour[b]:
                continue
            waited = int(runs.row[b] - runs.row[a]) - 1
            if waited < 0:
                between = int(runs.start[b] - runs.start[a] - runs.stitches[a])
                if strand is None or between <= strand:
                    found.append((a, b, between, 0))
            else:
                apart = abs(int(runs.entry[b] - runs.exit[a]))
                if (carry is None or apart <= carry) and (idle is None or waited <= idle):
                    found.append((a, b, apart, waited))
    return found


def rows_of(table: LinkTable) -> list[Row]:
    return list(zip(*(part.tolist() for part in (table.tail, table.head, table.carried, table.idle)), strict=True))


BOUND = st.none() | st.integers(0, 5)
GRIDS = st.integers(1, 9).flatmap(
    lambda width: st.lists(st.text("AABC.", min_size=width, max_size=width), min_size=1, max_size=7)
)


@pytest.mark.parametrize("near", [0, 10**6], ids=["bisecting", "looking around"])
@settings(max_examples=150)
@given(GRIDS, st.booleans(), BOUND, BOUND, BOUND)
def test_links_are_those_of_the_definition(
    near: int, rows: list[str], first: bool, strand: int | None, carry: int | None, idle: int | None
) -> None:
    runs = find_runs(build_grid(rows, "ABC"), [(number % 2 == 0) == first for number in range(len(rows))])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(links, "NEAR", near)
        table = possible_links(runs, strand=strand, carry=carry, idle=idle)
    assert rows_of(table) == allowed(runs, strand, carry, idle)
    assert {part.dtype for part in (table.tail, table.head)} == {np.dtype(np.int64)}


def test_which_way_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three rows ahead and three columns to each side are 21 places; one more column and row make 36, 81 is too far."""
    runs = find_runs(build_grid(["ABAB"] * 30, "AB"), [number % 2 == 0 for number in range(30)])
    taken = []
    for name in ("_look_around", "_look_up"):
        way: Callable[..., Any] = getattr(links, name)

        def note(*given: Any, name: str = name, way: Callable[..., Any] = way) -> Any:
            taken.append((name, given[1:]))
            return way(*given)

        monkeypatch.setattr(links, name, note)
    for carry, idle in ((3, 2), (0, 29), (None, 2), (4, 6), (4, 7)):
        possible_links(runs, strand=0, carry=carry, idle=idle)
    assert taken == [
        ("_look_around", (3, 2)),  # 3 rows × 7 places
        ("_look_around", (0, 29)),
        ("_look_around", (4, 2)),  # the chart is 4 wide
        ("_look_around", (4, 6)),  # 63 places
        ("_look_up", (4, 7)),
    ]
