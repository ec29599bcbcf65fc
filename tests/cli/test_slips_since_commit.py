"""A row that slipped since the last commit, as `check` tells it in a repository; and a commit that is silent of it."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

HEAD = """\
lintarsia: 1
title: Letter
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
"""
# A small letter, in strokes so thin that a picture alone tells nothing of its rows. The top line is row 8.
ROWS = ["BBBBBBBB", "BWWWWBBB", "BWBBBWBB", "BWBBBWBB", "BWWBWBBB", "BWBBBBBB", "BWBBBBBB", "BBBBBBBB"]


def write(rows: list[str]) -> None:
    Path("letter.chart.yaml").write_text(HEAD + "".join(f"  {row}\n" for row in rows))


@pytest.mark.parametrize(
    ("rows", "key", "level", "said"),
    [
        ([*ROWS[:4], "BBWWBWBB", *ROWS[5:]], "shifted", "warning",
         "row 4 (WS) stands 1 stitch further to the right than in the last commit, and nothing beside it has moved"),
        ([*ROWS[:4], ROWS[4][::-1], *ROWS[5:]], "mirrored", "warning",
         "row 4 (WS) is the other way round than in the last commit, and nothing beside it is"),
        ([*ROWS[:3], ROWS[4], ROWS[3], *ROWS[5:]], "swapped", "warning",
         "row 4 (WS) and row 5 have changed places since the last commit, and nothing beside them has"),
        ([*ROWS[:4], ROWS[3], *ROWS[5:]], "doubled", "warning",
         "row 4 (WS) is as the row beside it; in the last commit it is another, and nothing beside it is"),
        ([*ROWS[:5], ROWS[4], *ROWS[5:]], "doubled", "note",
         "row 5 (RS) has come since the last commit and is as row 4: it seems doubled"),
        ([*ROWS[:4], *ROWS[5:]], "left-out", "note",
         "a row of the last commit is gone between rows 3 and 4, and nothing else has changed"),
    ],
)  # fmt: skip
def test_each_slip_is_told_until_it_is_committed(
    repository: Path, commit: Callable[[], None], invoke: Callable[..., Any],
    rows: list[str], key: str, level: str, said: str,
) -> None:  # fmt: skip
    write(ROWS)
    commit()
    assert slips(invoke) == []
    write(rows)
    assert slips(invoke) == [(key, level, said)]
    commit()
    # What the picture alone still shows may be told; of the commit nothing is.
    assert not [told for *_, told in slips(invoke) if "commit" in told]


def slips(invoke: Callable[..., Any]) -> list[tuple[str, str, str]]:
    results = json.loads(invoke("check", "--format", "json").out)["results"]
    return [(r["key"], r["level"], r["message"]) for r in results if r["rule"] == "grid/row-slip"]


def test_compare_tells_it_once(repository: Path, commit: Callable[[], None], invoke: Callable[..., Any]) -> None:
    write(ROWS)
    commit()
    write([*ROWS[:4], "BBWWBWBB", *ROWS[5:]])
    [file] = json.loads(invoke("compare", "--format", "json").out)["files"]
    assert [row["how"] for row in file["rows"]] == ["shifted"]
    assert "grid/row-slip" not in {result["rule"] for result in file["results"]["new"]}
    assert "grid/row-slip" in invoke("check", "--since", "HEAD").out
