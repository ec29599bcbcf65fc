"""Rules on patterns: where seams meet, what is bought, and where charts come to more than a piece holds."""

import pytest
from pattern_told import Told, chart

from lintarsia.telling.lengths import yarn_length

TWO = "  front: {chart: front.chart.yaml}\n  back: {chart: back.chart.yaml}\n"
ONE = "  front: {chart: front.chart.yaml}\n"
SIDE = "seams:\n  - {join: [front left, back right], match: true}\n"
TOP = "seams:\n  - {join: [front top, back top], match: true}\n"


@pytest.mark.parametrize(
    ("seam", "front", "back", "expected"),
    [
        (SIDE, "B B B", "B B B", []),
        (SIDE, "B B B", "B W B", ["row 2: Dusk blue meets Bone"]),
        (SIDE, "B B B B", "W B W W", ["rows 1–2: Dusk blue meets Bone", "row 4: Dusk blue meets Bone"]),
        (SIDE, "B B B", "W B", ["3 rows meet 2 rows", "row 2: Dusk blue meets Bone"]),  # from the cast-on up
        (SIDE, "B B", "B", ["2 rows meet 1 row"]),
        (TOP, "BBBB", "BBBBB", ["4 stitches meet 5 stitches"]),  # from which end is anybody's guess
        (TOP, "BBBW", "WBBBB", ["4 stitches meet 5 stitches"]),
        (TOP, "BBW", "WBB", []),  # shoulder to shoulder, face to face
        (TOP, "BBBB", "WBBB", ["stitch 1 and stitch 4: Dusk blue meets Bone"]),
        (TOP, "BBBB", "WWBB", ["stitches 1–2 and stitches 3–4: Dusk blue meets Bone"]),
        (TOP, "BBB", "BWB", ["stitch 2: Dusk blue meets Bone"]),
        (SIDE, "B " * 16, "W B " * 8, [f"row {row}: Dusk blue meets Bone" for row in range(2, 17, 2)]),
        (
            SIDE,
            "B " * 18,
            "W B " * 9,
            [*(f"row {row}: Dusk blue meets Bone" for row in range(2, 17, 2)), "and so on along the seam"],
        ),
    ],
)
def test_colours_along_a_seam(told: Told, seam: str, front: str, back: str, expected: list[str]) -> None:
    join = "front top to back top" if seam == TOP else "front left to back right"
    messages = told("seam/continuity", TWO + seam, front=chart(front), back=chart(back))
    assert messages == [f"{join}: {words}" for words in expected]


@pytest.mark.parametrize(
    ("sizes", "which"), [("S: back, M: front, L: back", " (S, L)"), ("S: back, M: back, L: back", "")]
)
def test_sizes_that_are_told_together(told: Told, sizes: str, which: str) -> None:
    """Named unless they are all the pattern's sizes."""
    charts = ", ".join(f"{pair}.chart.yaml" for pair in sizes.split(", "))
    pieces = f"{ONE}  back: {{chart: {{{charts}}}}}\n{SIDE}"
    assert told("seam/continuity", pieces, head="sizes: [S, M, L]\n", front=chart("B B"), back=chart("W B")) == [
        f"front left to back right{which}: row 2: Dusk blue meets Bone"
    ]


# What is bought ---------------------------------------------------------------------------------------------------

KEY = '  B: {name: Dusk blue, shade: "#27406b", yarn: dk}\n'
# 2,400 stitches of 20 mm and two tails of 15 cm are 48.3 m; with a tenth to spare 53.13 m.
GAUGE = "gauge: {stitches: 20, rows: 30, over: 10 cm, loop: 20 mm}\n"
FIELD = " ".join(["B" * 60] * 40)


def field(ball: str, name: str = "name: Fjord, ") -> str:
    yarn = f"yarns: {{dk: {{{name}mass: 50 g{ball}}}}}\n"
    return chart(FIELD, yarn, KEY).replace("gauge: {stitches: 20, rows: 30, over: 10 cm}\n", GAUGE)


@pytest.mark.parametrize(
    ("length", "balls", "expected"),
    [
        ("10 m", "1", "Fjord: 1 ball of 10 m holds 10.0 m; all pieces need 48.3 m"),
        ("10 m", "4.5", "Fjord: 4.5 balls of 10 m hold 45.0 m; all pieces need 48.3 m"),
        ("10 m", "5", "Fjord: 5 balls of 10 m hold 50.0 m; all pieces need 48.3 m, 53.1 m with the allowance"),
        ("10 m", "6", ""),
        ("48.3 m", "1", "Fjord: 1 ball of 48.3 m holds 48.3 m; all pieces need 48.3 m, 53.1 m with the allowance"),
        ("53.13 m", "1", ""),
        ("53.12 m", "1", "Fjord: 1 ball of 53.12 m holds 53.1 m; all pieces need 48.3 m, 53.1 m with the allowance"),
        ("10 yd", "2", "Fjord: 2 balls of 10 yd hold 20.0 yd; all pieces need 52.8 yd"),
    ],
)
def test_balls_for_all_pieces(told: Told, length: str, balls: str, expected: str) -> None:
    pieces = f"{ONE}yarns:\n  dk: {{balls: {balls}}}\n"
    messages = told("yarn/too-little", pieces, front=field(f", length: {length}"))
    assert messages == ([expected] if expected else [])


def test_balls_of_unknown_length_are_not_counted(told: Told) -> None:
    assert told("yarn/too-little", f"{ONE}yarns:\n  dk: {{balls: 1}}\n", front=field("")) == []


@pytest.mark.parametrize(("times", "needs"), [(2, "96.6 m"), (3, "145 m")])
def test_a_hundred_metres_and_more_are_told_without_tenths(told: Told, times: int, needs: str) -> None:
    pieces = f"  front: {{chart: front.chart.yaml, times: {times}}}\nyarns:\n  dk: {{balls: 1}}\n"
    (message,) = told("yarn/too-little", pieces, front=field(", length: 10 m"))
    assert message == f"Fjord: 1 ball of 10 m holds 10.0 m; all pieces need {needs}"


@pytest.mark.parametrize(("pieces", "said"), [(ONE, "front needs it"), (TWO, "front and back need it")])
def test_a_yarn_that_nobody_is_told_to_buy(told: Told, pieces: str, said: str) -> None:
    charts = {"front": field(", length: 100 m"), "back": field(", length: 100 m")}
    assert told("yarn/too-little", f"{pieces}yarns:\n  wool: {{balls: 2}}\n", **charts) == [
        f"the pattern's yarns have no 'dk'; {said}"
    ]


def test_yarns_to_buy_that_no_chart_has(told: Told) -> None:
    pieces = f"{ONE}yarns:\n  dkk: {{balls: 2}}\n  moor: {{balls: 1}}\n  dk: {{balls: 9}}\n"
    assert told("yarn/unused", pieces, front=field("")) == [
        "the yarn 'dkk' is to be bought, and no chart of the pattern has it; did you mean 'dk'?",
        "the yarn 'moor' is to be bought, and no chart of the pattern has it",
    ]


def test_a_chart_that_is_missing_may_have_the_yarn(told: Told) -> None:
    """pattern/missing-chart says that it is missing."""
    assert told("yarn/unused", f"{TWO}yarns:\n  moor: {{balls: 1}}\n", front=field("")) == []


@pytest.mark.parametrize(("metres", "said"), [(99.94, "99.9 m"), (100, "100 m"), (612.4, "612 m")])
def test_lengths_to_buy(metres: float, said: str) -> None:
    assert yarn_length(metres, False) == said
    assert yarn_length(metres * 0.9144, True) == said.replace(" m", " yd")


@pytest.mark.parametrize(("beside", "more"), [(1, ""), (6, ""), (7, ", 1 more"), (9, ", 3 more")])
def test_charts_that_no_piece_names(told: Told, beside: int, more: str) -> None:
    """Six are named, and the number of the rest."""
    charts = {"front": chart("B")} | {f"x{number}": chart("B") for number in range(beside)}
    named = ", ".join(f"x{number}.chart.yaml" for number in range(min(beside, 6)))
    assert told("pattern/unlisted-chart", ONE, **charts) == [f"no piece names {named}{more}"]


# Stitches and rows of a piece -------------------------------------------------------------------------------------

BOX = "repeat: {stitches: [2, 5], rows: [2, 3]}\n"  # four stitches and six at the edges, two rows and four outside
TEN_BY_SIX = " ".join(["BBBBBBBBBB"] * 6)


@pytest.mark.parametrize(
    ("piece", "expected"),
    [
        ("cast-on: 14", ""),
        ("cast-on: 13", "13 stitches cast on less 6 edge stitches; no whole number of repeats of 4: 10 or 14 would be"),
        ("cast-on: 17", "17 stitches cast on less 6 edge stitches; no whole number of repeats of 4: 14 or 18 would be"),
        ("cast-on: 3", "3 stitches cast on less 6 edge stitches; no whole number of repeats of 4: 10 or 14 would be"),
        ("repeats: 2, cast-on: 13", "13 stitches cast on; 2 repeats of 4 and 6 edge stitches make 14"),
        ("repeats: 1, cast-on: 13", "13 stitches cast on; 1 repeat of 4 and 6 edge stitches make 10"),
        ("rows: 8", ""),
        ("rows: 9", "9 rows less 4 rows outside the repeat; no whole number of repeats of 2: 8 or 10 would be"),
        ("row-repeats: 2, rows: 9", "9 rows; 2 repeats of 2 and 4 rows outside them make 8"),
        ("cast-on: 10, plain: B, at: {stitch: 1}", ""),
        (
            "cast-on: 10, plain: B, at: {stitch: 2}",
            "10 stitches of the chart from stitch 2 reach beyond 10 stitches cast on",
        ),
        ("cast-on: 11, plain: B, at: {stitch: 2}", ""),
        ("rows: 6, plain: B, at: {row: 1}", ""),
        ("rows: 6, plain: B, at: {row: 2}", "6 rows of the chart from row 2 reach beyond 6 rows"),
        ("rows: 5, plain: B", "6 rows of the chart from row 1 reach beyond 5 rows"),
        ("rows: 9, plain: B, at: {row: 3}", ""),
        (
            "rows: 9, plain: B, at: {row: 4}",
            "the chart's row 1 (RS) lies on row 4, which is WS where row 1 of the piece is RS",
        ),
    ],
)
def test_repeats_in_a_piece(told: Told, piece: str, expected: str) -> None:
    pieces = f"  front: {{chart: front.chart.yaml, {piece}}}\n"
    messages = told("size/repeat-fit", pieces, front=chart(TEN_BY_SIX, BOX))
    assert messages == ([f"front: {expected}"] if expected else [])


def test_a_repeat_without_edges_says_nothing_of_edges(told: Told) -> None:
    whole = "repeat: {stitches: [1, 10], rows: [1, 6]}\n"
    for piece, expected in (
        ("cast-on: 15", "15 stitches cast on; no whole number of repeats of 10: 10 or 20 would be"),
        ("rows: 15", "15 rows; no whole number of repeats of 6: 12 or 18 would be"),
    ):
        pieces = f"  front: {{chart: front.chart.yaml, {piece}}}\n"
        assert told("size/repeat-fit", pieces, front=chart(TEN_BY_SIX, whole)) == [f"front: {expected}"]


@pytest.mark.parametrize(
    ("measures", "expected"),
    [
        ("width: 2.5 cm, around: 5 cm", []),
        ("width: 9 cm", ["10 stitches at 20 to 10 cm are laid flat 2.5 cm wide; 9 cm is stated"]),
        ("around: 9 cm", ["10 stitches at 20 to 10 cm are 5.0 cm around; 9 cm is stated"]),
        ("height: 9 cm", ["6 rounds at 30 to 10 cm are 2.0 cm high; 9 cm is stated"]),
    ],
)
def test_measures_of_a_tube(told: Told, measures: str, expected: list[str]) -> None:
    pieces = f"  front: {{chart: front.chart.yaml, measures: {{{measures}}}}}\n"
    messages = told("size/measurement", pieces, front=chart(TEN_BY_SIX, "worked: round\n"))
    assert messages == [f"front: {words}" for words in expected]


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [
        ("B.W", "W.B", []),
        ("B.W", "WWB", ["1 stitch not mirrored; row 1, stitch 2 is no stitch, and stitch 2 of right Bone"]),
        ("BWW", "W.B", ["1 stitch not mirrored; row 1, stitch 2 is Bone, and stitch 2 of right no stitch"]),
    ],
)
def test_pairs_with_squares_without_a_stitch(told: Told, left: str, right: str, expected: list[str]) -> None:
    pieces = "  right: {chart: right.chart.yaml}\n  left: {chart: left.chart.yaml, mirror-of: right}\n"
    messages = told("pieces/pair", pieces, left=chart(left), right=chart(right))
    assert messages == [f"left: {words}" for words in expected]


def test_a_pair_without_one_of_its_charts_is_not_compared(told: Told) -> None:
    """pattern/missing-chart says that it is missing."""
    pieces = "  right: {chart: lost.chart.yaml}\n  left: {chart: left.chart.yaml, mirror-of: right}\n"
    assert told("pieces/pair", pieces, left=chart("B")) == []
