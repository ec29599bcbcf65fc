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
