"""Rules on patterns at the edges of what they allow."""

import pytest
from pattern_told import Told, chart

TEN_BY_SIX = " ".join(["BBBBBBBBBB"] * 6)


@pytest.mark.parametrize(
    ("measures", "options", "expected"),
    [
        ("width: 5 cm", "", []),
        ("width: 5.5 cm", "", []),  # half a centimetre is let pass
        ("width: 5.51 cm", "", ["front: 10 stitches at 20 to 10 cm are 5.0 cm wide; 5.51 cm is stated"]),
        ("width: 4.5 cm", "", []),
        ("width: 4.49 cm", "", ["front: 10 stitches at 20 to 10 cm are 5.0 cm wide; 4.49 cm is stated"]),
        ("height: 2.5 cm", "", []),
        ("height: 2.6 cm", "", ["front: 6 rows at 30 to 10 cm are 2.0 cm high; 2.6 cm is stated"]),
        ("width: 5.1 cm", "{options: {tolerance: 1 mm}}", []),
        (
            "width: 5.2 cm",
            "{options: {tolerance: 1 mm}}",
            ["front: 10 stitches at 20 to 10 cm are 5.0 cm wide; 5.2 cm is stated"],
        ),
    ],
)
def test_measurements(told: Told, measures: str, options: str, expected: list[str]) -> None:
    pieces = f"  front: {{chart: front.chart.yaml, measures: {{{measures}}}}}\n"
    assert told("size/measurement", pieces, options, front=chart(TEN_BY_SIX)) == expected


@pytest.mark.parametrize(
    ("piece", "expected"),
    [
        ("cast-on: 10, plain: B", []),
        ("cast-on: 9, plain: B", ["front: 10 stitches of the chart from stitch 1 reach beyond 9 stitches cast on"]),
        ("cast-on: 12, plain: B, at: {stitch: 3}", []),
        (
            "cast-on: 12, plain: B, at: {stitch: 4}",
            ["front: 10 stitches of the chart from stitch 4 reach beyond 12 stitches cast on"],
        ),
        ("rows: 8, plain: B, at: {row: 3}", []),
        ("rows: 9, plain: B, at: {row: 5}", ["front: 6 rows of the chart from row 5 reach beyond 9 rows"]),
        (
            "rows: 8, plain: B, at: {row: 2}",
            ["front: the chart's row 1 (RS) lies on row 2, which is WS where row 1 of the piece is RS"],
        ),
        ("rows: 6", []),
        ("rows: 7", ["front: 7 rows; the chart has 6"]),
        ("row-repeats: 2, rows: 12", []),
        ("row-repeats: 2, rows: 13", ["front: 13 rows; 2 repeats of 6 make 12"]),
        ("row-repeats: 1, rows: 13", ["front: 13 rows; 1 repeat of 6 make 6"]),
        ("repeats: 2, cast-on: 20", []),
        ("repeats: 2, cast-on: 21", ["front: 21 stitches cast on; 2 repeats of 10 make 20"]),
        ("cast-on: 10, plain: X", ["front: the plain colour 'X' is not in the chart's key; it has B, W"]),
    ],
)
def test_what_the_cast_on_and_the_rows_hold(told: Told, piece: str, expected: list[str]) -> None:
    pieces = f"  front: {{chart: front.chart.yaml, {piece}}}\n"
    assert told("size/repeat-fit", pieces, front=chart(TEN_BY_SIX)) == expected


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [
        ("BBW BBB", "WBB BBB", []),
        ("BBW BBB", "WBB", ["left: its chart has 2 rows of 3 stitches, right's 1 row of 3 stitches"]),
        (
            "BB. BBB",
            "WBB BBB",
            ["left: 1 stitch not mirrored; row 2, stitch 1 is no stitch, and stitch 3 of right Bone"],
        ),
        (
            "WBW WBB",
            "WWB BBB",
            ["left: 3 stitches not mirrored; row 1, stitch 3 is Bone, and stitch 1 of right Dusk blue"],
        ),
    ],
)
def test_pairs(told: Told, left: str, right: str, expected: list[str]) -> None:
    pieces = "  right: {chart: right.chart.yaml}\n  left: {chart: left.chart.yaml, mirror-of: right}\n"
    assert told("pieces/pair", pieces, left=chart(left), right=chart(right)) == expected


@pytest.mark.parametrize(("times", "words"), [(1, []), (2, ["twice"]), (3, ["3 times"])])
def test_pieces_of_a_pair_are_knitted_equally_often(told: Told, times: int, words: list[str]) -> None:
    pieces = f"  right: {{chart: a.chart.yaml}}\n  left: {{chart: a.chart.yaml, mirror-of: right, times: {times}}}\n"
    assert told("pieces/pair", pieces, a=chart("BB")) == [f"left: knitted {word}, and right once" for word in words]


def test_a_name_with_two_shades_on_many_charts(told: Told) -> None:
    """Four files are named; of more, three and the number of the rest."""
    names = ["a", "b", "c", "d", "e", "f"]
    pieces = "".join(f"  {name}: {{chart: {name}.chart.yaml}}\n" for name in names)
    other = '  B: {name: DUSK BLUE, shade: "#000000"}\n'
    charts = {name: chart("B") for name in names[:5]} | {"f": chart("B", colours=other)}
    listed = "a.chart.yaml, b.chart.yaml, c.chart.yaml and 2 more"
    assert told("key/disagrees", pieces, **charts) == [f"Dusk blue is #27406b in {listed} and #000000 in f.chart.yaml"]
    charts["e"] = chart("W", colours='  W: {name: Bone, shade: "#efe9dc"}\n')
    listed = "a.chart.yaml, b.chart.yaml, c.chart.yaml and d.chart.yaml"
    assert told("key/disagrees", pieces, **charts) == [f"Dusk blue is #27406b in {listed} and #000000 in f.chart.yaml"]


def test_yarns_that_differ_in_what_is_said_of_them(told: Told) -> None:
    pieces = "  a: {chart: a.chart.yaml}\n  b: {chart: b.chart.yaml}\n"
    charts = {
        "a": chart("B", "yarns: {dk: {weight: 3, mass: 50 g}}\n"),
        "b": chart("B", "yarns: {dk: {name: Fjord}}\n"),
    }
    assert told("key/disagrees", pieces, **charts) == [
        "the yarn 'dk' is 50 g, weight 3 in a.chart.yaml and not described in b.chart.yaml"
    ]
