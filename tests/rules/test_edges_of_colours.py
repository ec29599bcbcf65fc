"""Rules on colours, lone stitches and the gauge where they might say too much, too little, or it of the wrong place."""

from collections.abc import Mapping
from dataclasses import replace

import pytest
from checking import GAUGE, HEAD, chart_check, found, told

from casefiles import every_case
from lintarsia.chart.measure import Length
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work
from lintarsia.rules.shared.areas import label_areas
from lintarsia.rules.shared.sight import difference, seen

STANDS_IN = {
    "gauge/loop": "gauge",
    "gauge/proportion": "gauge",
    "gauge/stitch-size": "gauge",
    "gauge/yarn-weight": "gauge",
    "colour/look-alike": "colours",
    "colour/same-shade": "colours",
}


@pytest.mark.parametrize(("rule", "section"), STANDS_IN.items())
def test_what_only_stands_in_for_a_faulty_section_is_not_judged(rule: str, section: str) -> None:
    """A gauge or key that cannot be read is told once, by file/schema; the values that stand in are nobody's fault."""
    loaded = catalogue.load(rule)
    tried = 0
    for case in every_case():
        chart = read_chart("case.chart.yaml", case.chart.encode()).chart if case.rule == rule and case.expect else None
        if chart is not None and not case.settings:
            tried += 1
            assert list(chart_check(loaded)(Work(chart), loaded.options()))
            assert list(chart_check(loaded)(Work(replace(chart, assumed=frozenset({section}))), loaded.options())) == []
    assert tried


# Lone stitches ----------------------------------------------------------------------------------------------------


def lone(grid: str, extra: str = GAUGE) -> list[str | None]:
    return [finding.remedy for finding in found("area/single-stitch", grid, extra)]


def test_of_two_stitches_equally_near_a_strand_comes_from_the_left_one() -> None:
    """W stands in stitches 9, 5 and 1 of row 2; the middle one has three stitches to either side."""
    remedies = lone("BBBBBBBBB WBBBWBBBW BBBBBBBBB")
    assert [str(remedy).partition("strand: ")[2].partition("; or")[0] for remedy in remedies] == [
        "3 stitches across (1.4 cm) from stitch 5",
        "3 stitches across (1.4 cm) from stitch 9",
        "3 stitches across (1.4 cm) from stitch 5",
    ]


@pytest.mark.parametrize(
    ("grid", "around"),
    [
        ("BBB BWB RRR", "Dusk blue (B)"),  # B at three sides
        ("RRR BWB RRR", "Dusk blue (B)"),  # two and two: that beside
        ("RBR RWR BBB", "Berry (R)"),
        ("RWR BBB YYY", "Berry (R)"),  # in the last row
        ("YYY BBB RWR", "Berry (R)"),  # in the first row
        ("YYY WBB RRR", "Dusk blue (B)"),  # at an edge: what is round the corner does not count
        ("YYY YBW RRB", "Dusk blue (B)"),
    ],
)
def test_a_lone_stitch_is_knitted_in_what_is_most_around_it(grid: str, around: str) -> None:
    assert any(f"; or knit it in {around} and cover it" in str(remedy) for remedy in lone(grid))


def test_a_symbol_that_the_key_lacks_is_not_knitted_under_a_lone_stitch() -> None:
    (finding,) = found("area/single-stitch", "xxx xWx xxx")
    assert str(finding.remedy).endswith("; or cover it with a duplicate stitch")
    assert "knit it in" not in str(finding.remedy)
    assert finding.fixes == ()


def test_a_lone_symbol_that_the_key_lacks_is_another_rules() -> None:
    assert told("area/single-stitch", "BBB BxB BBB") == []


@pytest.mark.parametrize(("strand", "count"), [(2, 2), (3, 0)])
def test_a_lone_stitch_within_a_strand_costs_nothing(strand: int, count: int) -> None:
    """Three stitches lie between the two."""
    extra = f"{GAUGE}technique: mixed\nlimits: {{strand: {strand}}}\n"
    assert len(told("area/single-stitch", "BBBBBBB BWBBBWB BBBBBBB", extra)) == count


def test_a_strand_of_just_the_limit_is_not_over_it() -> None:
    """2.5 cm are five stitches and a half: five stitches are within the limit, six are over it."""
    five, six = lone("WBBBBBW BBBBBBB"), lone("WBBBBBBW BBBBBBBB")
    assert all("5 stitches across (2.3 cm) from" in str(remedy) for remedy in five)
    assert all("6 stitches across (2.7 cm, over the limit of 2.5 cm) from" in str(remedy) for remedy in six)


def test_the_first_stitch_of_the_chart_may_be_of_a_small_area() -> None:
    results = found("area/single-stitch", "BBBBB BBBBB WWBBB", largest=2)
    assert [(finding.key, finding.row, finding.stitches) for finding in results] == [("small-area", 1, (4, 5))]


def test_squares_without_a_stitch_belong_to_no_area() -> None:
    chart = read_chart("x.chart.yaml", f"{HEAD}{GAUGE}chart: |\n  W.B\n  WBB\n".encode()).chart
    assert chart is not None
    assert label_areas(chart.grid, corners=False, tube=False).tolist() == [[0, 1, 1], [0, -1, 1]]


# Shades -----------------------------------------------------------------------------------------------------------


def look_alike(colours: Mapping[str, str | None], grid: str, **options: float) -> list[str]:
    """Messages on a key of shades; None leaves the shade out, so that a grey stands in for it."""
    shades = {symbol: f', shade: "{shade}"' if shade else "" for symbol, shade in colours.items()}
    key = "".join(f"  {symbol}: {{name: Shade {symbol}{shade}}}\n" for symbol, shade in shades.items())
    rows = "".join(f"  {row}\n" for row in grid.split())
    text = f"lintarsia: 1\ntitle: Shades\n{GAUGE}colours:\n{key}chart: |\n{rows}"
    chart = read_chart("shades.chart.yaml", text.encode()).chart
    assert chart is not None
    loaded = catalogue.load("colour/look-alike")
    return [finding.message for finding in chart_check(loaded)(Work(chart), loaded.options(**options))]


def test_a_stand_in_is_like_no_shade() -> None:
    grey = read_chart(
        "x.chart.yaml", f"lintarsia: 1\ntitle: x\n{GAUGE}colours:\n  B: {{name: Dusk}}\nchart: |\n  B\n".encode()
    ).chart
    assert grey is not None
    shade = grey.colours["B"].shade
    assert look_alike({"B": shade, "W": shade}, "BW") != []
    assert look_alike({"B": None, "W": shade}, "BW") == []
    assert look_alike({"B": shade, "W": None}, "BW") == []


def test_a_key_of_many_colours_is_looked_at_where_they_touch() -> None:
    """26 colours, all far apart in lightness but for the last two, which touch once, and an unknown symbol."""
    symbols = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    colours = {symbol: f"#{level:02x}{level:02x}{level:02x}" for symbol, level in zip(symbols, range(0, 260, 10))}  # noqa: B905
    alike = {"difference": 1.0, "grey": 1.0, "colour_blind": 1.0}
    assert look_alike(colours, symbols, **alike) == []
    colours["Z"] = colours["Y"]
    (message,) = look_alike(colours, f"{symbols}x", **alike)
    assert message == "Shade Y (Y) and Shade Z (Z) touch and differ by only 0.0 (CIEDE2000; expected at least 1)"
    assert look_alike(colours, symbols.replace("YZ", "YAZ"), **alike) == []


@pytest.mark.parametrize(
    ("more", "figures"),
    [(0.2, 1), (0.02, 2), (0.002, 3), (0.0002, 4)],
    ids=["tenths", "hundredths", "thousandths", "less"],
)
def test_a_difference_is_told_as_exactly_as_it_takes_to_see_that_it_is_too_small(more: float, figures: int) -> None:
    one, two = "#000000", "#4c4c4c"
    apart = difference(seen(one).plain, seen(two).plain)
    least = round(apart, figures) + 10.0**-figures / 2 if figures < 4 else apart + more
    (message,) = look_alike({"B": one, "W": two}, "BW", difference=least)
    told = message.partition("differ by only ")[2].partition(" ")[0]
    assert float(told) < least
    assert float(told) == pytest.approx(apart, abs=0.05)
    shorter = told[:-1].rstrip(".")
    assert shorter == told.partition(".")[0] or float(f"{apart:.{len(shorter.partition('.')[2])}f}") >= least


def test_the_nearest_of_two_kinds_of_blindness_is_told() -> None:
    """To red-blind and green-blind readers alike; the smaller of the two differences is what is wanting."""
    one, two = "#c68d12", "#27a830"
    (message,) = look_alike({"B": one, "W": two}, "BW", difference=0, grey=0, colour_blind=12)
    nearest = min(difference(getattr(seen(one), kind), getattr(seen(two), kind)) for kind in ("protan", "deutan"))
    assert f"differ by only {nearest:.1f} (CIEDE2000) to a red-blind and green-blind reader" in message


@pytest.mark.parametrize(("least", "count"), [(5.0, 1), (0.0, 0)])
def test_equal_greys_are_told_unless_nothing_is_asked_of_them(least: float, count: int) -> None:
    assert len(look_alike({"B": "#b23c2e", "W": "#00778e"}, "BW", difference=0, grey=least, colour_blind=0)) == count


# Supplies and symbols ---------------------------------------------------------------------------------------------

TWO_BLOCKS = "WBW WBW BBB"


@pytest.mark.parametrize(
    ("supplies", "fixes"),
    [
        ("{B: 1, W: 0}", [("give W 2 supplies", "2")]),
        ("{B: 1}", [("give W 2 supplies", ", W: 2")]),
        ("{B: 0, W: 2}", [("give B 1 supply", "1")]),
        ("{B: 1, W: x}", []),  # faulty: the schema's business
        ("{B: 1, W: 2}", []),
    ],
)
def test_supplies_that_are_wanting_are_given_as_the_plan_counts_them(
    supplies: str, fixes: list[tuple[str, str]]
) -> None:
    results = found("colour/no-supply", TWO_BLOCKS, f"{GAUGE}supplies: {supplies}\n")
    assert [(fix.description, fix.edits[0].text) for finding in results for fix in finding.fixes] == fixes
    assert len(results) == len(fixes)


def test_a_colour_in_duplicate_stitch_alone_is_given_one_supply() -> None:
    extra = f"{GAUGE}supplies: {{B: 1}}\nduplicate-stitch: [{{colour: R, row: 1, stitches: [1, 1]}}]\n"
    (finding,) = found("colour/no-supply", "BBB BBB", extra)
    assert [fix.description for fix in finding.fixes] == ["give R 1 supply"]


def test_no_supplies_are_too_few_only_for_the_rule_that_says_so() -> None:
    assert told("supply/too-few", TWO_BLOCKS, f"{GAUGE}supplies: {{B: 1, W: 0}}\n") == []
    assert told("supply/too-few", TWO_BLOCKS, f"{GAUGE}supplies: {{B: 1, W: 1}}\n") == [
        "Bone (W) has 1 supply; the plan needs 2, and row 2 alone works with 2"
    ]


def test_unknown_symbols_each_with_what_may_be_meant() -> None:
    results = found("grid/unknown-colour", "BB#B BbbW xBBx")
    assert [(f.row, f.stitches) for f in results] == [(1, (4, 4)), (1, (1, 1)), (2, (2, 3)), (3, (2, 2))]
    assert [[fix.description for fix in f.fixes] for f in results] == [[], [], ["write B"], []]
    assert results[2].fixes[0].edits[0].text == "BB"
    assert results[0].remedy is None
    assert str(results[3].remedy) == (
        "correct the square, or add the colour to `colours`, in quotes ('#'): without them it begins a comment"
    )


def test_two_unknown_symbols_side_by_side_are_two_results() -> None:
    assert [f.stitches for f in found("grid/unknown-colour", "BxxyB")] == [(3, 4), (2, 2)]


@pytest.mark.parametrize(
    ("symbol", "name"), [("\u00a0", "a no-break space"), ("\u2060", "the unseen character U+2060"), ("x", "'x'")]
)
def test_unseen_symbols_are_named(symbol: str, name: str) -> None:
    text = f'{HEAD}{GAUGE}chart: ["B{symbol}B"]\n'
    chart = read_chart("x.chart.yaml", text.encode()).chart
    if chart is None or symbol not in chart.grid.symbols:
        text = f"{HEAD}{GAUGE}chart: |\n  B{symbol}B\n"
        chart = read_chart("x.chart.yaml", text.encode()).chart
    assert chart is not None
    loaded = catalogue.load("grid/unknown-colour")
    (finding,) = chart_check(loaded)(Work(chart), loaded.options())
    assert (
        finding.message == f"row 1 uses {name}, which the key does not have; expected B, W, R, Y, or `.` for no stitch"
    )


@pytest.mark.parametrize(
    ("key", "expected"),
    [
        ("yarn: fjrd", "is worked in the yarn 'fjrd', which is not listed; did you mean 'fjord'?"),
        ("yarn: zz", "is worked in the yarn 'zz', which is not listed; there are fjord, moor"),
        ("yarn: fjord", ""),
        ("yarn: lost", ""),  # there but faulty: the schema's business
    ],
)
def test_yarns_that_are_not_listed(key: str, expected: str) -> None:
    head = HEAD.replace('"#27406b"}', f'"#27406b", {key}}}')
    listed = "yarns: {fjord: {weight: 3}, moor: {weight: 3}, lost: 7}\n"
    chart = read_chart("x.chart.yaml", f"{head}{GAUGE}{listed}chart: |\n  BB\n".encode()).chart
    assert chart is not None
    loaded = catalogue.load("colour/no-yarn")
    messages = [finding.message for finding in chart_check(loaded)(Work(chart), loaded.options())]
    assert messages == ([f"Dusk blue (B) {expected}"] if expected else [])


@pytest.mark.parametrize(("name", "same"), [("dusk  BLUE", True), ("Duskblue", False), ("Dusk xblue", False)])
def test_names_differ_by_more_than_capitals_and_spaces(name: str, same: bool) -> None:
    chart = read_chart("x.chart.yaml", f"{HEAD.replace('Bone', name)}{GAUGE}chart: |\n  BWRY\n".encode()).chart
    assert chart is not None
    loaded = catalogue.load("colour/same-name")
    assert bool(list(chart_check(loaded)(Work(chart), loaded.options()))) is same


# The gauge --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("gauge", "remedy"),
    [
        (
            "{stitches: 20, rows: 20, over: 10 mm}",
            "count the gauge over 10 cm, if that is meant: a stitch is then 5 mm wide",
        ),
        (
            "{stitches: 10, rows: 6, over: 3 mm}",
            "count the gauge over 3 cm, if that is meant: a stitch is then 3 mm wide",
        ),
        ("{stitches: 20, rows: 20, over: 1 cm}", None),  # no slip of the unit
        ("{stitches: 2, rows: 2, over: 130 mm}", None),  # too coarse already
        ("{stitches: 2, rows: 2, over: 25 mm}", ""),  # nothing to say
    ],
)
def test_millimetres_for_centimetres(gauge: str, remedy: str | None) -> None:
    results = found("gauge/stitch-size", "BB", f"gauge: {gauge}\n")
    assert [finding.remedy for finding in results] == ([] if remedy == "" else [remedy])


@pytest.mark.parametrize(("least", "slip"), [(4.8, True), (4.9, False)])
def test_a_slip_of_the_unit_is_one_only_where_it_mends_the_gauge(least: float, slip: bool) -> None:
    """Stitches of 0.48 mm would be of 4.8 mm."""
    gauge = "gauge: {stitches: 10, rows: 10, over: 4.8 mm}\n"
    (finding,) = found("gauge/stitch-size", "BB", gauge, least=Length(least, "mm"))
    assert (finding.remedy is not None) is slip


@pytest.mark.parametrize(
    ("needle", "over"),
    [("3.75 mm", False), ("3.7 mm", True), ("4.5 mm", False), ("4.6 mm", True)],
)
def test_needles_usual_for_light_yarn(needle: str, over: bool) -> None:
    """Craft Yarn Council: light yarn (3) on 3.75 to 4.5 mm, both included."""
    assert bool(needles(3, 22, needle)) is over


def needles(weight: int, stitches: float, needle: str) -> list[str]:
    head = HEAD.replace('"#27406b"}', '"#27406b", yarn: dk}')
    gauge = f"gauge: {{stitches: {stitches}, rows: {1.35 * stitches}, over: 4 in, needle: {needle}}}\n"
    text = f"{head}{gauge}yarns: {{dk: {{weight: {weight}}}}}\nchart: |\n  BB\n"
    chart = read_chart("x.chart.yaml", text.encode()).chart
    assert chart is not None
    loaded = catalogue.load("gauge/yarn-weight")
    return [finding.message for finding in chart_check(loaded)(Work(chart), loaded.options())]


@pytest.mark.parametrize(
    ("weight", "stitches", "usually"),
    [
        (3, 20.5, ""),
        (3, 20.4, "21 to 24"),
        (3, 24.4, ""),
        (3, 24.5, "21 to 24"),
        (7, 6.4, ""),
        (7, 6.5, "6 or fewer"),
        (0, 33, ""),  # lace
        (0, 32.4, "33 to 40"),
    ],
)
def test_gauges_usual_for_a_weight(weight: int, stitches: float, usually: str) -> None:
    """Craft Yarn Council, stitches in 4 in; half a stitch either way rounds to the table's numbers."""
    needle = {3: "4 mm", 7: "15 mm", 0: "2 mm"}[weight]
    messages = needles(weight, stitches, needle)
    assert [message.rpartition(", usually has ")[2] for message in messages] == ([usually] if usually else [])


def test_twenty_places_of_a_foreign_symbol_are_told_each_and_one_more_makes_them_one() -> None:
    row = "BxBxB"
    assert len(found("grid/unknown-colour", " ".join([row] * 10))) == 20
    (one,) = found("grid/unknown-colour", " ".join(["xBxxB", *[row] * 10]))
    assert (one.row, one.stitches, one.message.partition(" (")[2].partition(")")[0]) == (
        1,
        (4, 4),
        "23 stitches in 11 rows do",
    )
    counted = [
        f.pattern for grid in ("xBBBB", "BBBBB") for f in found("grid/unknown-colour", " ".join([grid, *[row] * 11]))
    ]
    assert len(set(counted)) == 2  # one more of them is something new to tell


def test_a_small_letter_in_many_places_is_mended_in_all() -> None:
    (one,) = found("grid/unknown-colour", " ".join(["BwBww"] * 4500))
    (fix,) = one.fixes
    assert (len(fix.edits), {edit.text for edit in fix.edits}, fix.safe) == (9000, {"W", "WW"}, False)
