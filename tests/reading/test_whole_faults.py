"""Faults of a lopsided chart told whole: key, message, place, remedy and what a fix would write."""

import pytest
from reading_charts import LOPSIDED as HEAD
from reading_charts import LOPSIDED_GRID as GRID

from lintarsia.reading import read_chart
from lintarsia.result import Finding

MORE = "".join(f'  {c}: {{name: {c}, shade: "#27406b"}}\n' for c in "CDEFGHIJKL")


def faults(text: str) -> list[Finding]:
    problems = read_chart("x.chart.yaml", text.encode()).problems
    assert {rule for rule, _ in problems} <= {"file/schema"}
    return [finding for _, finding in problems]


def told(text: str) -> list[str]:
    """`key line:column-line:column message` of each; a level and a remedy where there are any."""
    return [
        f"{f.key} {f.region.line}:{f.region.column}-{f.region.end_line}:{f.region.end_column} {f.message}"
        + (f" [{f.level}]" if f.level else "")
        + (f" | {f.remedy}" if f.remedy else "")
        for f in faults(text)
    ]


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("worked: round\nof: 56 stitches\n", []),
        (
            "divide: {3: {by: nothing, stitches: 2, sides: together}}\n",
            [
                "unknown-key 7:27-7:35 unknown key 'stitches' of 3 in divide: in a chart the grid shows which stitches "
                "part the sides; expected no count | take it out"
            ],
        ),
        (
            "worked: round\nof: 4 stitches\n",
            ["stitches-outside 8:5-8:15 the chart is 5 stitches wide, a part of 4 stitches; expected more"],
        ),
        (
            "of: 56 stitches\n",
            [
                "wrong-value 7:5-7:16 the chart is a part of 56 stitches and is worked flat; expected round or turned "
                "[warning] | leave `of` out, or say how the tube is worked"
            ],
        ),
        (
            "worked: round\nfirst-row: WS\n",
            [
                "first-row-round 8:12-8:14 first-row is WS, but a chart worked in the round shows the right side in "
                "every round [warning] | leave first-row out, or say how the piece is worked"
            ],
        ),
        ("repeat: {stitches: [1, 5], rows: [1, 3]}\n", []),
        ("repeat: {stitches: [4, 4], rows: [3, 3]}\n", []),
        (
            "repeat: {stitches: [4, 2], rows: [2, 7]}\n",
            [
                "range-backwards 7:20-7:26 stitches run backwards, [4, 2]; expected the lower number first",
                "repeat-outside 7:34-7:40 the rows of the repeat box reach 7; the chart has 3 rows",
            ],
        ),
        (
            "repeat: {stitches: [6, 1], rows: [1, 3]}\n",
            [
                "range-backwards 7:20-7:26 stitches run backwards, [6, 1]; expected the lower number first",
                "repeat-outside 7:20-7:26 the stitches of the repeat box reach 6; the chart has 5 stitches",
            ],
        ),
        (
            "duplicate-stitch:\n"
            "  - {colour: Q, row: 2, stitches: [1, 2]}\n"
            "  - {colour: B, row: 1, stitches: [2, 3]}\n"
            "  - {colour: B, row: 4, stitches: [5, 6]}\n"
            "  - {colour: B, row: 3, stitches: [4, 9]}\n"
            "  - {colour: B, row: 3, stitches: [5, 4]}\n"
            "  - {colour: B, row: 1, stitches: [4, 5]}\n",
            [
                "unknown-symbol 8:14-8:15 the duplicate stitch names the colour 'Q'; the key has A, B",
                "stitches-outside 9:35-9:41 the duplicate stitch lies where row 1 has no stitch; expected stitches to "
                "work over",
                "row-outside 10:22-10:23 the duplicate stitch names row 4; the chart has 3 rows",
                "stitches-outside 10:35-10:41 the duplicate stitch reaches stitch 6; the chart is 5 stitches wide",
                "stitches-outside 11:35-11:41 the duplicate stitch reaches stitch 9; row 3 is 5 stitches wide",
                "range-backwards 12:35-12:41 stitches run backwards, [5, 4]; expected the lower number first",
            ],
        ),
        (
            "suppress:\n"
            "  - {rule: a/b, justification: x, row: 9}\n"
            "  - {rule: a/b, justification: x, stitches: [3, 6], row: 2}\n"
            "  - {rule: a/b, justification: x, stitches: [3, 5], row: 3}\n",
            [
                "row-outside 8:40-8:41 the accepted result names row 9; the chart has 3 rows",
                "stitches-outside 9:45-9:51 the accepted result reaches stitch 6; row 2 is 5 stitches wide",
            ],
        ),
        ("supplies: {A: 1, Q: 2}\n", ["unknown-symbol 7:18-7:19 a supply names the colour 'Q'; the key has A, B"]),
        (
            f"{MORE}supplies: {{Q: 2}}\n",
            [
                "unknown-symbol 17:12-17:13 a supply names the colour 'Q'; the key has "
                "A, B, C, D, E, F, G, H, I, J, K, L"
            ],
        ),
        (
            f'{MORE}  M: {{name: M, shade: "#27406b"}}\nsupplies: {{Q: 2}}\n',
            ["unknown-symbol 18:12-18:13 a supply names the colour 'Q'; the key has 13 others"],
        ),
        (
            '  "\u0301": {name: C, shade: "#27406b"}\n',
            ["wrong-name 7:3-7:6 the symbol U+0301 cannot be seen by itself; expected a character that can"],
        ),
        ('  "ж": {name: C, shade: "#27406b"}\n', []),
        (
            "written: hello\n",
            [
                "wrong-value 7:10-7:15 written: found no rows; expected lines such as `Row 1 (RS): k3 A, k6 B`, or "
                "rows under their numbers"
            ],
        ),
        (
            '  C: {name: Rust, shade: "#b8743c", shde: 3}\nnotes: hi\ncolor: x\n',
            [
                "unknown-key 7:37-7:41 unknown key 'shde' of C in colours; did you mean 'shade'? | write shade",
                "unknown-key 8:1-8:6 unknown key 'notes'; expected a key of the format | take it out; what is only "
                "for people can stand in a comment, after #",
                "unknown-key 9:1-9:6 unknown key 'color'; did you mean 'colours'? | write colours",
            ],
        ),
        (
            "<<: {worked: flat}\n",
            [
                "merge-key 7:1-7:3 `<<` merges keys from another place; expected the keys themselves | write the keys "
                "out where they are used"
            ],
        ),
    ],
)
def test_what_stands_beside_the_grid(more: str, expected: list[str]) -> None:
    assert told(HEAD + more + GRID) == expected


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("lintarsia: 1\n", "", ["missing-key 1:1-1:1 the file has no 'lintarsia'; expected the format version, 1 | "
                                "add it, such as `lintarsia: 1`"]),
        ("lintarsia: 1", "lintarsia: 2", ["wrong-value 1:12-1:13 lintarsia: found 2; expected the format version, 1"]),
        ("title: Lopsided\n", "", ["missing-key 1:1-1:1 the file has no 'title'; expected text | "
                                   "add it, such as `title: Heron at dusk`"]),
        ("rows: 30, ", "", ["missing-key 3:1-3:6 gauge has no 'rows'; expected a number above 0 | "
                            "add it, such as `rows: 30`"]),
        ("10 cm", "0 cm", ["gauge-impossible 3:39-3:43 the gauge is counted over no length at all; expected 0.3 to "
                           "150 mm a stitch or row"]),
        ("22", "5000", ["gauge-impossible 3:19-3:23 by this gauge one stitch measures 0.02 mm; expected 0.3 to 150 mm "
                        "a stitch or row"]),
        ("30", "0.05", ["gauge-impossible 3:29-3:33 by this gauge one row measures 2,000 mm; expected 0.3 to 150 mm a "
                        "stitch or row"]),
        ("30", "0.625", ["gauge-impossible 3:29-3:34 by this gauge one row measures 160 mm; expected 0.3 to 150 mm a "
                         "stitch or row"]),
        ("colours:", "yarns: {dk: {name: DK, length: 0 m}}\ncolours:",
         ["wrong-value 4:32-4:35 a ball of dk is 0 m long; expected a length above 0"]),
    ],
)  # fmt: skip
def test_what_stands_in_the_head(old: str, new: str, expected: list[str]) -> None:
    assert HEAD.count(old) == 1
    assert told(HEAD.replace(old, new) + GRID) == expected


SIDE_BY_SIDE = "set the stitches side by side"
APART = "expected them side by side"


@pytest.mark.parametrize(
    ("rows", "expected", "fixed"),
    [
        (
            ["A A A B B", "A A B B B", "A A B B B"],
            f"space-in-row 8:3-8:12 the stitches of every row stand apart; {APART}, one character a stitch | take the "
            "spaces out: AAABB; or save the table as .csv, and `lintarsia bring` it",
            ["AAABB", "AABBB", "AABBB"],
        ),
        (
            ["AAABB", "AAABB", "A A B BB", "AAABB"],
            f"space-in-row 10:3-10:11 row 2 has white space between its 5 stitches; {APART} | take the white space "
            "out: AABBB",
            ["AAABB", "AAABB", "AABBB", "AAABB"],
        ),
        (
            ["AAABB", "AA BBB", "AABBB", "AAABB"],
            f"space-in-row 9:3-9:9 row 3 has white space between its 5 stitches; {APART} | take the white space out: "
            "AABBB",
            ["AAABB", "AABBB", "AABBB", "AAABB"],
        ),
        (
            ["AAABB", "AA BB", "AABBB", "AAABB"],
            "space-in-row 9:5-9:6 row 3 has a space at stitch 3; expected a symbol, or `.` for no stitch | write the "
            "stitch that belongs there, or `.` where there is none, or delete the space",
            None,
        ),
        (
            ["AAABB", " AABBB", "AABBB", "AAABB"],
            "space-before-row 9:3-9:4 row 3 begins further in than the rows around it, and is as wide as they are; "
            "expected the same indent | delete the space before the row",
            ["AAABB", "AABBB", "AABBB", "AAABB"],
        ),
        (
            ["AAABB", "AAABB \t", "AABBB"],
            "space-after-row 9:8-9:10 row 2 has white space after its last stitch; expected none [warning] | delete "
            "the white space",
            ["AAABB", "AAABB", "AABBB"],
        ),
    ],
)
def test_white_space_in_the_grid(rows: list[str], expected: str, fixed: list[str] | None) -> None:
    text = HEAD + "chart: |\n" + "".join(f"  {row}\n" for row in rows)
    assert told(text) == [expected]
    (fault,) = faults(text)
    assert len(fault.fixes) == (fixed is not None)
    for fix in fault.fixes:
        assert fix.safe
        lines = text.split("\n")
        for edit in fix.edits:
            assert edit.region.line == edit.region.end_line
            line = lines[edit.region.line - 1]
            lines[edit.region.line - 1] = (
                line[: edit.region.column - 1] + edit.text + line[edit.region.end_column - 1 :]
            )
        assert lines[7:-1] == [f"  {row}" for row in fixed or ()]


def test_a_blank_line_goes_whole() -> None:
    text = HEAD + "chart: |\n  AAABB\n  AABBB\n\n  AABBB\n"
    assert told(text) == [
        "empty-row 10:1-10:1 a blank line stands between row 1 and the row above it; expected none | delete the "
        "blank line"
    ]
    (fix,) = faults(text)[0].fixes
    assert [(tuple(edit.region), edit.text) for edit in fix.edits] == [((10, 1, 11, 1), "")]
