"""Rules at the edges of what they allow: one value inside, the next one outside, and what is said there."""

from typing import Any

import pytest
from checking import GAUGE, HEAD, chart_check, found, told

from lintarsia.chart import Limits
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work


def gauge(stitches: float, rows: float, more: str = "") -> str:
    return f"gauge: {{stitches: {stitches}, rows: {rows}, over: 10 cm{more}}}\n"


@pytest.mark.parametrize(
    ("stitches", "rows", "extra", "options", "words"),
    [
        (20, 42, "", {}, []),  # 2.1 exactly
        (20, 42.5, "", {}, ["42.5 rows to 20 stitches, so its stitches are very flat; expected at most 2.1 rows"]),
        (20, 20.5, "", {}, []),
        (20, 19.5, "", {}, ["so its stitches are taller than wide; plain fabric has more rows than stitches"]),
        (20, 18, "technique: stranded\n", {}, []),  # 0.9 exactly
        (20, 17.5, "technique: stranded\n", {}, ["at least 0.9 rows to a stitch"]),
        (20, 42.5, "technique: stranded\n", {}, ["very flat"]),
        (20, 24, "", {"least": 1.2}, ["so its stitches are taller than wide; plain fabric has more than 1.2 rows"]),
        (20, 25, "", {"least": 1.2}, []),
        (20, 50, "", {"most": 2.5}, []),
    ],
)
def test_proportion_of_a_stitch(stitches: float, rows: float, extra: str, options: Any, words: list[str]) -> None:
    messages = told("gauge/proportion", "BWB", gauge(stitches, rows) + extra, **options)
    assert len(messages) == len(words)
    assert all(word in message for word, message in zip(words, messages, strict=True))


@pytest.mark.parametrize(
    ("grid", "options", "places"),
    [
        ("BB...BB BB...BB", {}, [(1, (3, 5), "rows 1–2 have 3 squares")]),
        ("BB..BB BB..BB", {}, []),
        ("BB.BB BBBBB BB.BB", {"squares": 1}, [(1, (3, 3), "row 1 has 1 square"), (3, (3, 3), "row 3 has 1 square")]),
        ("BBBBB BB.BB BB.BB", {"squares": 0}, [(1, (3, 3), "rows 1–2 have 1 square ")]),
        ("B...BB BBBBBB", {}, [(2, (3, 5), "row 2 has 3 squares")]),
    ],
)
def test_a_row_is_parted_by_squares_without_a_stitch(grid: str, options: Any, places: list[Any]) -> None:
    results = found("grid/parted-row", grid, **options)
    assert [(f.row, f.stitches) for f in results] == [place[:2] for place in places]
    assert all(place[2] in f.message for f, place in zip(results, places, strict=True))


CROSSED = "WRYB WRYB WBYR WBYR"  # B and R change places around Y: three pairs


def test_pairs_that_cross_are_counted_and_may_be_allowed() -> None:
    assert told("supply/crossings", CROSSED, limits=Limits(carry=3)) == [
        "row 3 (RS) needs its yarns in another order than they hang in: 3 pairs have to cross"
    ]
    assert told("supply/crossings", CROSSED, limits=Limits(carry=3), most=2) != []
    assert told("supply/crossings", CROSSED, limits=Limits(carry=3), most=3) == []


@pytest.mark.parametrize(
    ("grid", "colour", "places"),
    [
        ("BWWWWWWW BWWWWWWW BBBBBBWW BBBBBBWW BBBBBBWW", "Bone", [(4, (3, 7))]),
        ("WWBBBBBB WWBBBBBB WWWWWWWB WWWWWWWB WWWWWWWB", "Dusk blue", [(4, (2, 6))]),
        ("BBBBWWWW BBBBWWWW WWWBBBBB WWWBBBBB", "Dusk blue", [(3, (1, 4))]),  # one column shared
        ("BBBWWWWW BBBWWWWW WWWBBBBB WWWBBBBB", "Dusk blue", []),  # none: another block
        ("WWWWBBBB WWWWBBBB WWWWBBBB BBBBBWWW BBBBBWWW BBBBBWWW", "Dusk blue", [(4, (5, 8))]),
        ("WWWWWBBB WWWWWBBB WWWWWBBB BBBBBWWW BBBBBWWW BBBBBWWW", "Dusk blue", []),
    ],
)
def test_steep_edges(grid: str, colour: str, places: list[Any]) -> None:
    results = found("supply/steep-edge", grid, limits=Limits(carry=3))
    assert [(f.row, f.stitches) for f in results if f"the edge of {colour}" in f.message] == places


@pytest.mark.parametrize(
    ("grid", "extra", "expected"),
    [
        ("BBWB BWRY", "technique: stranded\n", [(1, "works with 4 colours, B, W, R and Y; two are usual")]),
        ("B.WB B.WR", "technique: stranded\n", [(1, "works with 3 colours, B, W and R; two are usual")]),
    ],
)
def test_colours_that_are_held(grid: str, extra: str, expected: list[Any]) -> None:
    results = found("float/third-colour", grid, GAUGE + extra)
    assert [f.row for f in results] == [row for row, _ in expected]
    assert all(words in f.message for f, (_, words) in zip(results, expected, strict=True))
    assert found("float/third-colour", grid, GAUGE + extra, most=4) == []


@pytest.mark.parametrize(
    ("loop", "keys"),
    [(12.4, ["too-short"]), (12.5, []), (32.5, []), (32.6, ["too-long"])],
)
def test_yarn_in_a_stitch_of_five_millimetres(loop: float, keys: list[str]) -> None:
    assert [f.key for f in found("gauge/loop", "B", gauge(20, 30, f", loop: {loop} mm"))] == keys


@pytest.mark.parametrize(
    ("over", "keys"),
    [
        ("20 mm", []),  # 1 mm exactly
        ("19.9 mm", ["too-fine"]),
        ("1200 mm", []),  # 6 cm exactly
        ("1.21 m", ["too-coarse"]),
        ("7 mm", ["too-fine"]),  # rows of 0.3 mm
        ("6 mm", []),  # file/schema already calls rows of 0.26 mm impossible
    ],
)
def test_width_of_a_stitch(over: str, keys: list[str]) -> None:
    stated = f"gauge: {{stitches: 20, rows: 23, over: {over}}}\n"
    assert [f.key for f in found("gauge/stitch-size", "B", stated)] == keys


@pytest.mark.parametrize(
    ("weight", "metres", "keys"),
    [
        (3, 125, []),  # 200 / 1.6
        (3, 124, ["too-short"]),
        (3, 400, []),  # 250 × 1.6
        (3, 401, ["too-long"]),
        (7, 64, []),
        (7, 65, ["too-long"]),
        (7, 1, []),
    ],
)
def test_metres_in_a_ball(weight: int, metres: int, keys: list[str]) -> None:
    yarns = f"yarns: {{dk: {{weight: {weight}, length: {metres} m, mass: 100 g}}}}\n"
    results = found("yarn/metreage", "B", GAUGE + yarns)
    assert [f.key for f in results] == keys
    if keys and weight == 7:
        assert results[0].message == "dk: 65 m in 100 g are 65 m in 100 g; typical of weight 7 are under 40 m"


def test_metreage_never_asks_for_less_than_the_table() -> None:
    with pytest.raises(ValueError, match=r"^room is 1 or more$"):
        catalogue.load("yarn/metreage").options(room=0.99)
    catalogue.load("yarn/metreage").options(room=1)


@pytest.mark.parametrize(
    ("rows", "begins"),
    [(1, ["yarns rest 3 times (2 supplies); the longest: B1 "]), (2, ["B1 rests in rows 4–5 "]), (3, [])],
)
def test_rests_from_the_settings_on(rows: int, begins: list[str]) -> None:
    """B rests for one row, then for two, and W for one in between: one finding, at the longest."""
    results = found("supply/waits", "BBBB WWWW WWWW BBBB WWWW BBBB", rows=rows)
    assert [f.message[: len(begin)] for f, begin in zip(results, begins, strict=True)] == begins


def test_rests_of_stranded_yarn_have_a_number_of_their_own() -> None:
    grid = "BBBB " + "WWWW " * 7 + "BBBB"
    extra = GAUGE + "technique: stranded\n"
    (rest,) = found("supply/waits", grid, extra)
    assert (rest.row, rest.stitches) == (1, (4, 4))  # where it hangs
    assert rest.message == "B1 rests in rows 2–8 and is taken up again in row 9, 2.3 cm higher"
    assert found("supply/waits", grid, extra, stranded_rows=8) == []


@pytest.mark.parametrize(
    ("entries", "expected"),
    [
        ("{colour: W, row: 1, stitches: [2, 3]}", []),
        ("{colour: B, row: 1, stitches: [2, 2]}", ["is over Dusk blue (B) already, at stitch 2 of row 1"]),
        ("{colour: B, row: 1, stitches: [1, 4]}", ["is over Dusk blue (B) already, at stitches 1–4 of row 1"]),
        (
            "{colour: W, row: 2, stitches: [1, 2]}, {colour: R, row: 1, stitches: [1, 2]}, "
            "{colour: R, row: 2, stitches: [2, 3]}",
            ["covers stitch 2 of row 2, which entry 1 of the list covers already"],
        ),
        ("{colour: B, row: 3, stitches: [1, 1]}", []),
        ("{colour: B, row: 2, stitches: [4, 9]}", []),  # the reader's business
    ],
)
def test_duplicate_stitches(entries: str, expected: list[str]) -> None:
    messages = told("duplicate/no-effect", "BBBB BBBB", f"{GAUGE}duplicate-stitch: [{entries}]\n")
    assert len(messages) == len(expected)
    assert all(message.endswith(words) for message, words in zip(messages, expected, strict=True))


@pytest.mark.parametrize(("length", "short"), [("0.66 m", True), ("0.68 m", False), ("2 yd", False), ("0.6 yd", True)])
def test_supplies_wound_too_short(length: str, short: bool) -> None:
    """20 stitches × 18.636 mm and 30 cm of tails are 0.6727 m; half a centimetre is let pass."""
    results = found("supply/too-short", "BBBBBBBBBB BBBBBBBBBB", f"{GAUGE}supplies: {{B: [{{length: {length}}}]}}\n")
    assert [f.key for f in results] == (["shorter-than-needed"] if short else [])


def test_half_of_the_last_figure_is_let_pass() -> None:
    """0.6727 m are needed: 66.8 cm are within 5 mm of it, 66.7 are not."""
    for length, short in (("66.8 cm", False), ("66.7 cm", True)):
        extra = f"{GAUGE}supplies: {{B: [{{length: {length}}}]}}\n"
        assert bool(found("supply/too-short", "BBBBBBBBBB BBBBBBBBBB", extra)) is short


@pytest.mark.parametrize(
    ("colours", "expected"),
    [
        (
            'X: {name: Moss, shade: "#4c7a4a"}\n  Z: {name: Fern, shade: "#4c7a4a"}',
            ["Fern (Z) has the shade #4c7a4a, as Moss (X) has"],
        ),
        ('X: {name: Moss, shade: "#4c7a4a"}\n  Z: {name: Fern, shade: "#4c7a4b"}', []),
    ],
)
def test_one_shade_twice(colours: str, expected: list[str]) -> None:
    head = HEAD.split("colours:")[0]
    rows = "chart: |\n  XVZ\n"
    text = f'{head}colours:\n  {colours}\n  V: {{name: Oat, shade: "#efe9dc"}}\n{GAUGE}{rows}'
    chart = read_chart("edges.chart.yaml", text.encode()).chart
    assert chart is not None
    loaded = catalogue.load("colour/same-shade")
    assert [f.message for f in chart_check(loaded)(Work(chart), loaded.options())] == expected


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (
            {2: "p4 B", 3: "k4 B"},
            ["row 1 (RS) is in the chart and not written", "row 4 (WS) is in the chart and not written"],
        ),
        ({1: "k4 B", 4: "p4 B"}, ["rows 2–3 are in the chart and not written"]),
        ({1: "k4 B"}, ["rows 2–4 are in the chart and not written"]),
        ({4: "p4 B"}, ["rows 1–3 are in the chart and not written"]),
    ],
)
def test_rows_that_are_not_written(written: dict[int, str], expected: list[str]) -> None:
    words = "".join(f'  {row}: "{text}"\n' for row, text in written.items())
    assert told("words/missing-row", "BBBB BBBB BBBB BBBB", f"{GAUGE}written:\n{words}") == expected


def test_results_on_a_row_are_known_again_by_its_text() -> None:
    """The fingerprint follows the row's own stitches, so that rows added below do not make an old result a new one."""
    assert [f.pattern for f in found("supply/crossings", CROSSED, limits=Limits(carry=3))] == ["WRYB"]
    few = found("supply/row-limit", "BWBW BBBB WWRR", limits=Limits(supplies=2))
    assert [(f.row, f.pattern) for f in few] == [(3, "BWBW")]
