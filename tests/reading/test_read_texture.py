"""The layer `stitches`: knit, purl and garter beside the colours, from the file to the words and back.

How garter stitch and a purl are worked is common practice: knitted in every row, so that each wrong-side row leaves a
ridge; a purl that shows on the right side is knitted from the wrong side.
"""

import pytest

from lintarsia.chart import Chart
from lintarsia.reading import read_chart
from lintarsia.reading.reader import Reading
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Work
from lintarsia.written import write_rows
from lintarsia.written.style import Style

HEAD = """\
lintarsia: 1
title: Border
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
"""
GRID = ["AAABBBAA", "AAABBBAA", "AAABBBAA", "AAABBBAA"]


def reading(grid: list[str], layer: list[str], extra: str = "") -> Reading:
    blocks = [("stitches", layer), ("chart", grid)]
    text = HEAD + extra + "".join(f"{key}: |\n" + "".join(f"  {r}\n" for r in reversed(rows)) for key, rows in blocks)
    return read_chart("border.chart.yaml", text.encode())


def chart(grid: list[str], layer: list[str], extra: str = "") -> Chart:
    read = reading(grid, layer, extra)
    assert read.problems == ()
    assert read.chart is not None
    return read.chart


def words(c: Chart, *, fold: bool = False) -> list[str]:
    return [row.text for row in write_rows(c, style=Style(fold=fold, stars=False, merge=False))]


LAYER = ["gggggggg", "gggggggg", "ppk...kp", "kk.p.pgp"]


def test_words_knit_and_purl_as_each_side_sees_it() -> None:
    assert words(chart(GRID, LAYER)) == [
        "k2 A, k3 B, k3 A. (8 sts)",
        "k3 A, k3 B, k2 A. (8 sts)",
        "p1 A, k1 A, k3 B, k1 A, p2 A. (8 sts)",
        "p3 A, k1 B, p1 B, k1 B, k2 A. (8 sts)",
    ]


def test_garter_in_rounds_is_purled_every_second_round() -> None:
    lines = words(chart(GRID, ["gggggggg"] * 4, "worked: round\n"))
    assert lines[:2] == ["k2 A, k3 B, k3 A. (8 sts)", "p2 A, p3 B, p3 A. (8 sts)"]


def test_a_layer_of_stocking_stitch_changes_nothing() -> None:
    plain = chart(GRID, ["........", "kkkkkkkk", "........", "........"])
    assert plain.texture is None
    assert words(plain)[0] == "k2 A, k3 B, k3 A. (8 sts)"


def test_moss_folds() -> None:
    moss = chart(["A" * 9, "A" * 9], ["kpkpkpkpk", "pkpkpkpkp"])
    assert words(moss, fold=True) == ["k1 A, [p1 A, k1 A] 4 times. (9 sts)"] * 2


STRANGE = "row 1, stitch 5: stitches has 'x'; expected k (knit), p (purl), g (garter) or ."


@pytest.mark.parametrize(
    ("grid", "layer", "message"),
    [
        (GRID, LAYER[:3], "stitches has 3 rows; the chart has 4"),
        (GRID, [*LAYER[:3], "kk.p"], "row 4 of stitches has 4 stitches; the chart's row has 8"),
        (
            GRID,
            ["gggxgggg", *LAYER[1:]],
            STRANGE,
        ),
        (["..ABBBAA", *GRID[1:]], LAYER, "row 1, stitch 8: stitches has 'g' where the chart has no stitch"),
    ],
)
def test_a_layer_that_does_not_fit_is_told_with_its_place(grid: list[str], layer: list[str], message: str) -> None:
    read = reading(grid, layer, "shaping: {2: {left: 2}}\n" if grid[0][0] == "." else "")
    assert read.chart is not None
    (found,) = [finding for _, finding in read.problems]
    assert found.message == message
    assert found.region.line == (7 if "rows;" in message else found.region.line)


REMEDY = "write `stitches: |` with a line for each row of the chart: k, p or g for each stitch, . where it is plain"


GAP = "write . there, or draw the stitch in the chart"
LETTERS = "expected k (knit), p (purl), g (garter) or ."


@pytest.mark.parametrize(
    ("layer", "found"),
    [
        ("kpk pkp ..k", []),
        ("kpk kp ..k", ["9:3-5 row 2 (-, -): row 2 of stitches has 2 stitches; the chart's row has 3"]),
        (
            "kpk pkp .gk",
            [f"8:4-5 row 3 (2, 2): row 3, stitch 2: stitches has 'g' where the chart has no stitch | {GAP}"],
        ),
        ("kpk xkp ..k", [f"9:3-4 row 2 (3, 3): row 2, stitch 3: stitches has 'x'; {LETTERS}"]),
        (
            "kpk pkp xgk",
            [
                f"8:3-4 row 3 (3, 3): row 3, stitch 3: stitches has 'x'; {LETTERS}",
                f"8:4-5 row 3 (2, 2): row 3, stitch 2: stitches has 'g' where the chart has no stitch | {GAP}",
            ],
        ),
        ("kpk pkp ..k kkk", ["7:1-9 row None (-, -): stitches has 4 rows; the chart has 3"]),
    ],
)
def test_a_fault_of_the_layer_has_the_place_of_its_stitch(layer: str, found: list[str]) -> None:
    """The highest row, which is row 3, is the file's eighth line."""
    told = []
    for _, fault in reading(["AAB", "AAB", "..A"], layer.split()).problems:
        line, column, end_line, end = fault.region
        assert (fault.key, line) == ("wrong-value", end_line)
        stitches = fault.stitches or ("-", "-")
        more = "" if fault.remedy == REMEDY else f" | {fault.remedy}"
        told.append(f"{line}:{column}-{end} row {fault.row} ({stitches[0]}, {stitches[1]}): {fault.message}{more}")
    assert told == found


@pytest.mark.parametrize(
    ("layer", "read"),
    [
        ("ppp pp", (".ppp", "..pp")),
        ("kkppp gpppp", ("kppp", "pppp")),
        ("pxpp pppp", ("p.pp", "pppp")),
        ("pppp", ("pppp", "....")),
        ("pppp pppp kkkk", ("pppp", "pppp")),
    ],
)
def test_a_layer_that_does_not_fit_is_read_as_far_as_it_does(layer: str, read: tuple[str, ...]) -> None:
    """What is too narrow is plain at its left, what is too wide loses its left, and what is no letter is plain."""
    chart = reading(["AAAB", "AABB"], layer.split()).chart
    assert chart is not None
    assert chart.texture is not None
    assert chart.texture.rows == read


def test_a_layer_in_quotes_is_told_where_it_stands() -> None:
    text = f'{HEAD}chart: |\n  AAB\n  AAB\nstitches: "ppp\\nkkx"\n'
    read = read_chart("border.chart.yaml", text.encode())
    assert read.chart is not None
    assert read.chart.texture is not None
    assert read.chart.texture.rows == ("kk.", "ppp")
    ((_, finding),) = read.problems
    assert (finding.message, tuple(finding.region)) == (
        f"row 1, stitch 1: stitches has 'x'; {LETTERS}",
        (10, 19, 10, 20),
    )


def told(c: Chart) -> list[str]:
    work = Work(c)
    checks = [check for name in catalogue.NAMES if name.startswith("words/") and (check := catalogue.load(name).check)]
    return [f"{finding.key}: {finding.message}" for check in checks for finding in check(work, NoOptions())]


def test_written_rows_are_compared_stitch_by_stitch() -> None:
    c = chart(GRID, LAYER)
    own = [f"  Row {n}: {line}\n" for n, line in enumerate(words(c), 1)]
    assert told(chart(GRID, LAYER, "written: |\n" + "".join(own))) == []
    own[3] = own[3].replace("k1 B, k2 A", "p1 B, k2 A")
    assert told(chart(GRID, LAYER, "written: |\n" + "".join(own))) == [
        "other-stitch: row 4 (WS): stitch 3 is knitted in the chart and purled in the words"
    ]


def test_the_fingerprint_is_of_what_the_stitches_show() -> None:
    from lintarsia.chart.content import chart_fingerprint

    plain, textured = chart(GRID, ["........"] * 4), chart(GRID, LAYER)
    otherwise = chart(GRID, ["........", "pppppppp", *LAYER[2:]])
    assert chart_fingerprint(plain) != chart_fingerprint(textured)
    assert chart_fingerprint(otherwise) == chart_fingerprint(textured)


def test_a_texture_takes_no_other_plan() -> None:
    from lintarsia.planning.planner import make_plan

    plain, textured = make_plan(chart(GRID, ["........"] * 4)), make_plan(chart(GRID, LAYER))
    assert (plain.totals, [s.id for s in plain.supplies]) == (textured.totals, [s.id for s in textured.supplies])
