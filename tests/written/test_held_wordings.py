"""The held lists: how designers write rows is read as the row it means, and each planted slip is one result.

What is not read yet is listed by name, so that a wording that is lost, and one that is won, both show.
"""

import pytest
from held_rows import Held, found, held

READ = ("plain", "shaped", "late", "unseen")
NOT_READ: set[str] = set()


def cases(*names: str) -> list[Held]:
    return [case for name in names for case in held(name)]


def test_the_lists_are_as_long_as_they_say() -> None:
    assert [len(cases(name)) for name in (*READ, "faults")] == [149, 59, 64, 261, 68]


@pytest.mark.parametrize("case", cases(*READ), ids=lambda case: case.words)
def test_a_habitual_wording_is_read_as_the_row_it_means(case: Held) -> None:
    results = [result.split(":")[0] for result in found(case)]
    assert results == (["words/unreadable cannot-follow"] if case.words in NOT_READ else [])


@pytest.mark.parametrize("case", cases("faults"), ids=lambda case: case.words)
def test_a_planted_slip_is_one_result(case: Held) -> None:
    (result,) = found(case)
    assert result.startswith(f"words/{case.expected} "), result


@pytest.mark.parametrize("case", cases(*READ), ids=lambda case: case.words)
def test_the_same_words_for_another_row_are_not_taken_for_it(case: Held) -> None:
    """What is read is compared: against a row with its first stitch in a third colour, every wording has a result,
    but for those that only point at the chart, or at the row below, which has the third colour too.
    """
    from dataclasses import replace

    from lintarsia.chart.grid import build_grid

    row = case.chart.grid.rows[case.row - 1]
    changed = [*case.chart.grid.rows[: case.row - 1], row[:-1] + "C"] if row[-1] != "." else None
    if changed is None:
        changed = [*case.chart.grid.rows[: case.row - 1], "C" + row[1:]]
    other = replace(case.chart, grid=build_grid(changed, tuple(case.chart.colours)))
    written = {number: words for number, words in other.written.items() if number == case.row}
    results = [
        result for result in found(case._replace(chart=replace(other, written=written))) if "missing" not in result
    ]
    points = any(word in case.words.lower() for word in ("patt", "chart", "work even", "as established", "as set"))
    assert results or points or case.words in WHOLE_ROWS, case.words


# Words that shape a row and say nothing of its colours.
WHOLE_ROWS = {"Decrease 1 st at each side", "Inc 1 st at both ends of row"}
