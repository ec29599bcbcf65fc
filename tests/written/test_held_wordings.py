"""The held lists: how designers write rows is read as the row it means, and each planted slip is one result.

What is not read yet is listed by name, so that a wording that is lost, and one that is won, both show.
"""

import re
from dataclasses import replace
from functools import cache

from held_rows import Held, found, held

from folding import each
from lintarsia.chart.grid import build_grid

READ = ("plain", "shaped", "late", "unseen", "fourth", "fifth", "sixth", "seventh", "eighth")
SLIPS = ("faults", "slips")
NOT_READ = {"Cast off 3 sts, knit rem 9 sts: 5 A, 4 B"}
# Words that point at the chart or at the row below; and colours, without which words say nothing of a picture.
POINTS = re.compile(r"patt|chart|work even|as established|as set", re.IGNORECASE)
NAMED = re.compile(r"(?<![A-Za-z])(?:[ABCabc]|MC|CC\d?)(?![A-Za-z])|blue|bone|rust|main|contrast", re.IGNORECASE)


@cache
def cases(*names: str) -> tuple[Held, ...]:
    return tuple(case for name in names for case in held(name))


def readable() -> tuple[Held, ...]:
    return cases(*READ)


def faulty() -> tuple[Held, ...]:
    return cases(*SLIPS)


def words(case: Held) -> str:
    return case.words


def test_the_lists_are_as_long_as_they_say() -> None:
    assert [len(cases(name)) for name in (*READ, *SLIPS)] == [149, 59, 64, 261, 120, 60, 60, 60, 50, 68, 41]


@each("case", readable, named=words, quickly=3)
def test_a_habitual_wording_is_read_as_the_row_it_means(case: Held) -> None:
    results = [result.split(":")[0] for result in found(case)]
    assert results == (["words/unreadable cannot-follow"] if case.words in NOT_READ else [])


@each("case", faulty, named=words)
def test_a_planted_slip_is_one_result(case: Held) -> None:
    (result,) = found(case)
    assert result.startswith(f"words/{case.expected} "), result


@each("case", readable, named=words, quickly=3)
def test_the_same_words_for_another_row_are_not_taken_for_it(case: Held) -> None:
    """What is read is compared: against a row with its first stitch in a third colour, every wording has a result,
    but for those that only point at the chart, or at the row below, which has the third colour too.
    """
    row = case.chart.grid.rows[case.row - 1]
    at = len(row) - 1 if row[-1] != "." else 0
    changed = [*case.chart.grid.rows[: case.row - 1], row[:at] + ("A" if row[at] == "C" else "C") + row[at + 1 :]]
    other = replace(case.chart, grid=build_grid(changed, tuple(case.chart.colours)))
    written = {number: words for number, words in other.written.items() if number == case.row}
    results = [
        result for result in found(case._replace(chart=replace(other, written=written))) if "missing" not in result
    ]
    assert results or POINTS.search(case.words) or not NAMED.search(case.words), case.words
