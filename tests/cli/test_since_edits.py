"""Random edits of random charts: `--since` tells all that a whole check says now and did not say of the charts before.

The measure is the whole check of either state, told apart by rule and fingerprint; `--since` is only told the revision.
"""

import random
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from lintarsia.engine import check_paths
from lintarsia.result import Report, Result

EDITS = 250
HEAD = """lintarsia: 1
title: Drifts
worked: {worked}
technique: {technique}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
  M: {{name: Moss, shade: "#5b6b27"}}
chart: |
"""

Rows = list[str]


def drawn(chance: random.Random) -> Rows:
    """Blocks with wandering edges, now and then a speck and a slip: charts that have faults already."""
    width, height = chance.randint(11, 17), chance.randint(7, 13)
    edge = chance.randint(3, 8)
    rows = []
    for _ in range(height):
        edge = min(width - 2, max(2, edge + chance.choice((-1, 0, 0, 1))))
        row = list("B" * edge + "W" * (width - edge))
        if chance.random() < 0.4:
            row[chance.randrange(width)] = "M"
        rows.append("".join(row))
    if chance.random() < 0.3:
        rows[chance.randrange(height)] += "B"
    return rows


def edited(rows: Rows, chance: random.Random) -> Rows:
    """One edit by hand: a stitch lost, doubled or recoloured, a run recoloured, a row lost, doubled or moved."""
    at, rows = chance.randrange(len(rows)), list(rows)
    row, stitch = rows[at], chance.randrange(len(rows[at]))
    kind = chance.randrange(7)
    if kind == 0:
        rows[at] = row[:stitch] + row[stitch + 1 :]
    elif kind == 1:
        rows[at] = row[:stitch] + row[stitch] + row[stitch:]
    elif kind == 2:
        rows[at] = row[:stitch] + chance.choice("BWM") + row[stitch + 1 :]
    elif kind == 3:
        long = min(chance.randint(2, 9), len(row) - stitch)
        rows[at] = row[:stitch] + chance.choice("BWM") * long + row[stitch + long :]
    elif kind == 4:
        del rows[at]
    elif kind == 5:
        rows.insert(at, row)
    else:
        rows.insert(chance.randrange(len(rows)), rows.pop(at))
    return rows


def mark(result: Result) -> tuple[str, str, str]:
    return result.file, result.rule, result.fingerprint


def marks(report: Report) -> set[tuple[str, str, str]]:
    return {mark(result) for result in report.results}


@pytest.mark.slow
@pytest.mark.parametrize("seed", [3])
def test_no_new_result_is_let_through(repository: Path, commit: Callable[[], None], seed: int) -> None:
    chance = random.Random(seed)
    kinds: Sequence[tuple[str, str]] = (("flat", "intarsia"), ("flat", "mixed"), ("round", "stranded"))
    charts: dict[Path, tuple[str, Rows]] = {}
    for number in range(EDITS):
        worked, technique = kinds[number % 3]
        charts[repository / f"{number:03}.chart.yaml"] = HEAD.format(worked=worked, technique=technique), drawn(chance)
    write(charts)
    commit()
    before = check_paths(["."])
    write({file: (head, edited(rows, chance)) for file, (head, rows) in charts.items()})
    now, told = check_paths(["."]), check_paths(["."], since="HEAD")

    new = marks(now) - marks(before)
    rules = {rule for _, rule, _ in new}
    assert {"grid/stitch-count", "float/too-long", "area/single-stitch"} <= rules, "the edits must make such faults"
    assert len(new) > EDITS / 2
    assert new - marks(told) == set()
    assert marks(told) <= marks(now)
    # Twins of a new result in changed lines are told with it, and no more than these.
    more = [result for result in told.results if mark(result) not in new]
    assert len(more) < len(new) / 5


def write(charts: dict[Path, tuple[str, Rows]]) -> None:
    for file, (head, rows) in charts.items():
        file.write_text(head + "".join(f"  {row}\n" for row in rows), encoding="utf-8")


def test_the_edits_are_seen_where_they_are_told_by_row(repository: Path, commit: Callable[[], None]) -> None:
    """The case by hand: a stitch lost in row 1 is told at row 2, which has not changed."""
    rows = ["B" * 9 + "W" * 8] * 5
    file = repository / "a.chart.yaml"
    head = HEAD.format(worked="flat", technique="intarsia")
    write({file: (head, rows)})
    commit()
    write({file: (head, [*rows[:-1], rows[-1][1:]])})
    (result,) = [r for r in check_paths(["."], since="HEAD").results if r.rule == "grid/stitch-count"]
    assert result.row == 2
    assert result.region.line == 14
