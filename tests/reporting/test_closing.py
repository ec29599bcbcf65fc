"""The lines before the sum: what blocks among much that does not, and what `check --fix` can mend."""

from dataclasses import replace

from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Edit, Fix, Level, Region, Report, Result
from rendering import rendered

NOTE = Result("supply/waits", "waits", Level.NOTE, "a supply waits", "a.chart.yaml", Region(9, 3, 9, 4), remedy="mend")
ERROR = replace(NOTE, rule="grid/stitch-count", level=Level.ERROR, file="b.chart.yaml", region=Region(20, 3, 20, 9))
SAFE = Fix("delete the blank line", (Edit(Region(20, 1, 21, 1), ""),))


def last(report: Report) -> list[str]:
    """What stands below the entries' last blank line."""
    return rendered(report, PLAIN).split("\n\n")[-1].splitlines()


def test_the_one_that_blocks_is_named_below_many_that_do_not() -> None:
    assert last(Report(2, (NOTE, ERROR))) == [
        "blocks  b.chart.yaml:20:3  grid/stitch-count",
        "2 charts: 1 error, 1 note",
    ]


def test_nothing_is_said_twice_where_all_blocks_or_nothing_does() -> None:
    assert last(Report(1, (ERROR,))) == ["1 chart: 1 error"]
    assert last(Report(1, (NOTE,))) == ["1 chart: 1 note (nothing that blocks)"]
    assert last(Report(1, (NOTE, replace(ERROR, suppressed=True)))) == [
        "1 chart: 1 note; 1 suppressed (nothing that blocks)"
    ]


def test_many_that_block_are_counted() -> None:
    errors = tuple(replace(ERROR, region=Region(n, 3, n, 9), message=f"row {n}") for n in range(20, 27))
    lines = last(Report(2, (NOTE, *errors)))
    assert lines[-3:] == [
        "        b.chart.yaml:23:3  grid/stitch-count",
        "        and 3 more",
        "2 charts: 7 errors, 1 note",
    ]


def test_what_can_be_mended_is_offered_once_and_not_after_mending() -> None:
    safe, risky = replace(ERROR, fixes=(SAFE,)), replace(ERROR, fixes=(replace(SAFE, safe=False),))
    assert last(Report(1, (safe, risky))) == [
        "lintarsia check --fix can mend 1 of these, --fix=risky 1 more (look it over)",
        "1 chart: 2 errors",
    ]
    assert last(Report(1, (risky,)))[0] == "lintarsia check --fix=risky can mend 1 of these (look it over)"
    assert last(Report(1, (safe,), fixed=())) == ["1 chart: 1 error"]
    assert last(Report(1, (replace(safe, suppressed=True),))) == ["1 chart: nothing to mend; 1 suppressed"]
