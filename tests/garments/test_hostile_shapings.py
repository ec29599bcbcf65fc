"""Thirty-three shapings that no hands can work, or that say two things at once: what is told of each, and nothing more.

What can be worked is common practice: several stitches come off where a row or a side starts; a bind-off in mid row
parts the work; a side that has no stitch left does not go on.
"""

from pathlib import Path

import pytest

from lintarsia.engine import check_paths

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
"""
FULL, PARTED = "BBBBBBBBBBBB", "BBBB....BBBB"
NECK = (PARTED, PARTED, FULL, FULL)  # parted from row 3 up
RIGHT = ("BBBBBBBBB...", FULL, FULL)  # three stitches less at the right in row 3
Told = list[tuple[str, int | None]]

CASES: list[tuple[str, tuple[str, ...], Told]] = [
    ("shaping: {3: {left: -3}}", ("...BBBBBBBBB", "...BBBBBBBBB", FULL, FULL), [("end-of-row", 3)]),
    ("shaping: {3: -4}", NECK, [("not-divided", 3)]),
    ("divide: {2: {by: bind-off}}", NECK, [("no-opening", 2)]),
    ("divide: {4: {by: bind-off}}", NECK, [("nothing-comes-off", 4)]),
    ("divide: {3: {by: bind-off}}\nshaping: {5: {left: -3}}", ("...B....BBBB", *NECK), [("end-of-side", 5)]),
    ("divide: {3: {by: bind-off}}\nshaping: {4: {right: -3}}", ("BBBB....B...", *NECK[1:]), [("end-of-side", 4)]),
    (
        "divide: {3: {by: hold}}\nshaping: {4: {right: {hold: 4}}}",
        (PARTED, "BBBB........", *NECK[1:]),
        [("row-too-long", 5)],
    ),
    (
        "divide: {3: {by: hold}}\nshaping: {4: {right: {bind-off: 4}}}",
        (PARTED, "BBBB........", *NECK[1:]),
        [("row-too-long", 5), ("end-of-side", 4)],
    ),
    ("shaping: {3: {right: 4}}", (FULL, PARTED, PARTED), [("not-at-edge", 3), ("parted", 1)]),
    ("shaping: {2: {right: -1}, 2-3: {right: -1}}", ("BBBBBBBBBB..", "BBBBBBBBBBB.", FULL), [("shaped-twice", None)]),
    ("shaping: {2-3/2: {right: -1}}", ("BBBBBBBBBBB.", "BBBBBBBBBBB.", FULL), [("range-off-step", None)]),
    ("shaping: {3: {neck-right: -1}}", ("BBBBBBBBBBB.", FULL, FULL), [("no-sides", 3)]),
    ("shaping: {3-2: {right: -1}}", (FULL,) * 3, [("range-backwards", None)]),
    ("shaping: {2-3/0: {right: -1}}", (FULL,) * 3, [("wrong-name", None)]),
    ("shaping: {three: {right: -1}}", (FULL,) * 3, [("wrong-name", None)]),
    ("shaping: {40: {right: -1}}", (FULL,) * 3, [("row-outside", None)]),
    ("divide: {40: {by: hold}}", (FULL,) * 3, [("row-outside", None)]),
    ("divide: {2: {by: nothing, at: 5, to: 9}}", (FULL,) * 3, [("row-outside", None)]),
    ("worked: round\ndivide: {3: {by: hold}}", NECK, [("in-rounds", 3)]),
    ("worked: turned\ndivide: {3: {by: hold}}", NECK, [("in-rounds", 3)]),
    ("divide: {3: {by: hold, sides: both}}", NECK, [("wrong-value", None)]),
    ("divide: {3: {by: hold}}", ("BB..BBBB..BB",) * 2 + (FULL, FULL), [("several-openings", 3)]),
    ("divide: {3: {by: hold}, 4: {by: hold}}", NECK, [("parted-already", 4)]),
    ("divide: {3: {by: nothing}}", (FULL,) * 4, [("no-opening", 3)]),
    ("divide: {3: {by: nothing}}", NECK, [("stitches-left", 3)]),
    ("divide: {3: {by: bind-off}}\nshaping: {3: {neck-left: {bind-off: 6}}}", NECK, [("other-number", 3)]),
    ("shaping: {3: {right: {bind-off: 20}}}", ("............", FULL, FULL), [("row-too-long", 3)]),
    ("shaping: {3: {right: {bindoff: 3}}}", RIGHT, [("unknown-key", None), ("row-too-short", 3)]),
    ("shaping: {3: {rigth: -3}}", RIGHT, [("unknown-key", None), ("row-too-short", 3)]),
    ("shaping: {3: {right: {decrease: 3}}}", RIGHT, [("many-at-once", 3)]),
    ("shaping: {3: {right: -3}}", (FULL,) * 3, [("row-too-long", 3)]),
    (
        "divide: {3: {by: bind-off}}\nshaping: {4: {neck-right: -1}}",
        ("BBB.....BBBB", *NECK[1:]),
        [("row-too-short", 4), ("row-too-long", 4)],
    ),
    ("divide: {2: {by: bind-off, to: 3}}", (FULL, PARTED, PARTED, FULL), [("row-too-long", 4)]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "rows", "expected"), CASES)
def test_what_is_told(said: str, rows: tuple[str, ...], expected: Told, tmp_path: Path) -> None:
    file = tmp_path / "yoke.chart.yaml"
    file.write_text(f"{HEAD}{said}\nchart: |\n" + "".join(f"  {row}\n" for row in rows), "utf-8")
    results = check_paths([str(file)], jobs=1).results
    assert sorted((result.key, result.row or 0) for result in results) == sorted(
        (key, row or 0) for key, row in expected
    )
    assert all(result.remedy for result in results)
