"""When the missing stitches of a short row are certain, and when they are not.

Rows are given as printed, the short one in the middle; a knitter's judgement, common practice and ours.
"""

import random
from pathlib import Path

import pytest

from lintarsia.chart.grid import RowNumber
from lintarsia.mending import mend
from lintarsia.reading import read_chart
from lintarsia.rules.shared.short_rows import completing
from lintarsia.settings import Settings

HOUSE = Settings(root="/")
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.chart.yaml"))
ALWAYS_CHANGING = {"hedgerow-yoke.chart"}  # no three rows alike, and squares without a stitch
HEAD = (
    "lintarsia: 1\ntitle: Rows\ngauge: {stitches: 22, rows: 30, over: 10 cm}\ncolours:\n"
    '  B: {name: Dusk blue, shade: "#27406b"}\n'
)
BONE = '  W: {name: Bone, shade: "#efe9dc"}\n'


def chart(rows: list[str], extra: str = "") -> bytes:
    key = HEAD + (BONE if "W" in "".join(rows) + extra else "")
    return (key + extra + "chart: |\n" + "".join(f"  {row}\n" for row in rows)).encode()


MIRRORED = "symmetry: [left-right]\n"
CERTAIN = {
    "a plain row between plain rows": (["BBBBBB", "BBBBB", "BBBBBB"], "BBBBBB", ""),
    "two of sixteen": (["BBBBBWWWWBBBBBBB"] + ["B" * 16] * 2 + ["B" * 14] + ["B" * 16], "B" * 16, ""),
    "left mirrors right": (["BBWWWBB", "BBWWBB", "BBWWWBB", "BBWWWBB"], "BBWWWBB", MIRRORED),
}
LIKELY = {
    "a straight edge, seen twice above": (["BBBWWW", "BBBWWW", "BBBWW", "BBBWWW"], "BBBWWW"),
    "a straight edge, seen twice below": (["BBBWWW", "BBWWW", "BBBWWW", "BBBWWW"], "BBBWWW"),
    "two of sixteen in blocks": (
        ["B" * 8 + "W" * 8] * 2 + ["B" * 6 + "W" * 8] + ["B" * 8 + "W" * 8],
        "B" * 8 + "W" * 8,
    ),
    "plain, with a speck elsewhere": (["BBBBBB", "BBBBB", "BBBBBB", "BBBWBB", "BBBBBB", "BWWWBB"], "BBBBBB"),
    "plain, with an edge that steps out elsewhere": (
        ["BBBBBBBB", "BBBBBBB", "BBBBBBBB", "BBWWWBBB", "BWWWWBBB", "BBWWWBBB"],
        "BBBBBBBB",
    ),
    "plain, in a stripe": (["WWWWWW", "BBBBBB", "BBBBB", "BBBBBB", "WWWWWW"], "BBBBBB"),
    "the file says mirrored and the row is not": (["BBWWWB", "BBWWB", "BBWWWB", "BBWWWB"], "BBWWWB", MIRRORED),
}
DOUBTFUL = {
    "it may be a zigzag": ["BBWWBB", "BWWBBB", "BBWWB", "BWWBBB", "BBWWBB"],
    "the neighbours disagree": ["BBBWWW", "BBBWWW", "BBWWW", "BBWWWW"],
    "a block is missing": ["BBWBBB", "BBWBBB", "BBBBB", "BBWBBB"],
    "a plain row between patterned ones": ["BBWWBB", "BBWWBB", "BBBBB", "BBWWBB"],
    "a patterned row between plain ones": ["BBBBBB", "BBBBBB", "BBWBB", "BBBBBB"],
    "two blocks are narrow": ["BBBWWW" * 3, "BBBWWW" * 3, "BBWW" + "BBBWWW" * 2, "BBBWWW" * 3],
    "half the row": ["BBBBBB", "BBB", "BBBBBB"],
    "the top row": ["BBBBB", "BBBBBB", "BBBBBB"],
    "the bottom row": ["BBBBBB", "BBBBBB", "BBBBB"],
    "squares without a stitch": [".BBBB.", ".BBB.", ".BBBB."],
    "two short rows together": ["BBBBBB", "BBBBB", "BBBB", "BBBBBB"],
}  # fmt: skip
COUNTED = {
    "a duplicate stitch counts the row": "duplicate-stitch: [{colour: W, row: 2, stitches: [2, 2]}]\n",
    "an accepted result counts the row": "suppress: [{rule: words/side, row: 2, stitches: [1, 2], justification: x}]\n",
    "shaping is declared in the row": "shaping: {2: 1}\n",
    "shaping is declared above": "shaping: {3: 1}\n",
}  # fmt: skip


@pytest.mark.parametrize(("rows", "whole", "extra"), CERTAIN.values(), ids=CERTAIN)
def test_certain(rows: list[str], whole: str, extra: str) -> None:
    mended = mend("x.chart.yaml", chart(rows, extra), HOUSE)
    assert mended.data == chart([row if len(row) == len(whole) else whole for row in rows], extra)


@pytest.mark.parametrize(("rows", "whole", "extra"), [(*case, "")[:3] for case in LIKELY.values()], ids=LIKELY)
def test_likely(rows: list[str], whole: str, extra: str) -> None:
    """Mended where the user asks for what may change the picture, and only then."""
    assert mend("x.chart.yaml", chart(rows, extra), HOUSE).data == chart(rows, extra)
    mended = mend("x.chart.yaml", chart(rows, extra), HOUSE, risky=True)
    assert [fixed.safe for fixed in mended.fixed if fixed.rule == "grid/stitch-count"] == [False]
    assert next(fixed.description for fixed in mended.fixed if not fixed.safe).endswith("back, as below and above")
    short = min(rows, key=len)
    assert f"\n  {short}\n".encode() not in mended.data


@pytest.mark.parametrize("rows", DOUBTFUL.values(), ids=DOUBTFUL)
def test_in_doubt(rows: list[str]) -> None:
    assert mend("x.chart.yaml", chart(rows), HOUSE).data == chart(rows)
    assert mend("x.chart.yaml", chart(rows[::-1]), HOUSE).data == chart(rows[::-1])


@pytest.mark.parametrize("extra", COUNTED.values(), ids=COUNTED)
def test_what_else_counts_the_row(extra: str) -> None:
    data = chart(["BBBBBB", "BBBBB", "BBBBBB"], extra)
    assert b"\n  BBBBB\n" in mend("x.chart.yaml", data, HOUSE).data


def test_a_colour_that_is_used_nowhere_may_be_that_of_the_missing_stitch() -> None:
    text = HEAD + BONE + "chart: |\n  BBBBB\n  BBBB\n  BBBBB\n"
    mended = mend("x.chart.yaml", text.encode(), HOUSE)
    assert mended.data == text.encode()
    assert {result.rule for result in mended.results} == {"grid/stitch-count", "colour/unused"}


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_a_stitch_that_is_lost_comes_back_as_it_was_or_not_at_all(file: Path) -> None:
    """The examples as they were drawn are the answer; one stitch of each row but the outermost is taken out."""
    lines = file.read_text(encoding="utf-8").split("\n")
    chart = read_chart(file.name, file.read_bytes()).chart
    assert chart is not None
    chance = random.Random(file.name)
    back = 0
    for place in chart.places.lines[1:-1]:
        line = lines[place.line - 1]
        at = chance.randrange(place.column - 1, place.end_column - 1)
        broken = [*lines[: place.line - 1], line[:at] + line[at + 1 :], *lines[place.line :]]
        found = read_chart(file.name, "\n".join(broken).encode()).chart
        assert found is not None
        for fix in completing(found, RowNumber(chart.places.lines.index(place) + 1)):
            (edit,) = fix.edits
            short = broken[place.line - 1]
            assert short[: edit.region.column - 1] + edit.text + short[edit.region.column - 1 :] == line
            back += 1
    assert back > 0 or file.stem in ALWAYS_CHANGING


def test_rows_in_quotes_are_completed_in_their_quotes() -> None:
    text = HEAD + 'chart: "BBBBBB\\nBBBBB\\nBBBBBB"\n'
    mended = mend("x.chart.yaml", text.encode(), HOUSE).data
    assert mended == text.replace("\\nBBBBB\\n", "\\nBBBBBB\\n").encode()
