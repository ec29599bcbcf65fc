"""Results as pages tell them: like ones once, in the order of the rows, and at each place what is to be done there."""

from typing import Any

from lxml import html

from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.resulthtml import MOST_BESIDE, _telling, results_html
from lintarsia.publishing.pages.resultview import AtHand, ResultPlace, Telling, tellings
from lintarsia.result import NOWHERE, Fix, Level, Region, Result, RuleInfo
from straytext import stray

INFO = RuleInfo(
    name="area/lone",
    level=Level.WARNING,
    summary="a stitch stands alone",
    why="",
    remedy="choose how to work it",
    keys={"lone": "a stitch stands alone"},
)
RULES = {"area/lone": INFO}


def lone(
    row: int,
    remedy: str = INFO.remedy,
    *fixes: Fix,
    message: str = "",
    level: Level = Level.WARNING,
    key: str = "lone",
) -> Result:
    """A result at stitch 3 of a row; in the file, row 9 stands above row 1."""
    text = message or f"stitch 3 of row {row} is alone"
    region = Region(100 - row, 3, 100 - row, 4)
    return Result("area/lone", key, level, text, "a.chart.yaml", region, row, (3, 3), remedy, fixes, f"print{row}{key}")


def test_like_results_share_a_remedy_where_they_have_one() -> None:
    (told,) = tellings(None, [lone(9), lone(5), lone(2)], Level.ERROR, RULES)
    assert told.head == "3 places: a stitch stands alone"
    assert told.remedy == "choose how to work it"
    assert [spot.remedy for spot in told.spots] == ["", "", ""]
    assert told.places == ("row 2: stitch 3", "row 5: stitch 3", "row 9: stitch 3")
    (alone,) = tellings(None, [lone(9)], Level.ERROR, RULES)
    assert (alone.places, alone.head, alone.more) == ((), "stitch 3 of row 9 is alone", 0)


def test_advice_that_is_the_same_at_each_place_and_not_the_rules_is_given_once() -> None:
    (told,) = tellings(None, [lone(row, "sew it on") for row in (9, 5, 2)], Level.ERROR, RULES)
    assert told.remedy == "sew it on"
    assert [spot.remedy for spot in told.spots] == ["", "", ""]


def test_what_differs_from_place_to_place_is_said_at_the_place() -> None:
    """One place's advice must not stand for all of them."""
    blue, red = Fix("knit it in B", (), safe=False), Fix("knit it in R", (), safe=False)
    (told,) = tellings(None, [lone(9, "use B", blue), lone(5, "use R", red), lone(2)], Level.ERROR, RULES)
    assert told.remedy == "choose how to work it"
    assert told.fixes == ()
    assert [spot.remedy for spot in told.spots] == ["", "use R", "use B"]
    assert [[fix.does for fix in spot.fixes] for spot in told.spots] == [[], ["knit it in R"], ["knit it in B"]]
    assert told.spots[1].fixes[0].option == "--fix=risky"


def test_a_fix_that_is_safe_is_made_without_more_ado() -> None:
    (told,) = tellings(None, [lone(4, "use B", Fix("knit it in B", ()))], Level.ERROR, RULES)
    assert told.remedy == "use B"
    assert [(fix.does, fix.option) for fix in told.fixes] == [("knit it in B", "--fix")]
    assert told.spots[0].remedy == ""
    assert told.spots[0].fixes == ()


def test_results_of_a_level_come_as_the_rows_are_knitted() -> None:
    """The file has the last row on top, and whoever knits begins with the first."""
    grave = Level.ERROR
    results = [lone(9, key="a"), lone(8, key="b", level=grave), lone(3, key="c"), lone(1, key="d", level=grave)]
    told = tellings(None, results, Level.ERROR, RULES)
    assert [(t.level, t.spots[0].where) for t in told] == [
        ("error", "Row 1, stitch 3"),
        ("error", "Row 8, stitch 3"),
        ("warning", "Row 3, stitch 3"),
        ("warning", "Row 9, stitch 3"),
    ]
    (gathered,) = tellings(None, [lone(9), lone(5), lone(2)], Level.ERROR, RULES)
    assert [spot.where for spot in gathered.spots] == ["Row 2, stitch 3", "Row 5, stitch 3", "Row 9, stitch 3"]


def said(row: int, message: str) -> str:
    (told,) = tellings(None, [lone(row, message=message)], Level.ERROR, RULES)
    return told.spots[0].message


def test_the_row_is_not_said_twice() -> None:
    assert said(35, "row 35 (RS) needs its yarns in another order") == "needs its yarns in another order"
    assert said(3, "round 3 has 9 stitches; round 2 has 10") == "has 9 stitches; round 2 has 10"
    assert said(3, "row 3 (WS): nothing can be made of k2tog") == "nothing can be made of k2tog"


def test_other_rows_are_said() -> None:
    for message in ("row 4 has 9 stitches", "rows 3–6 are in the chart and not written", "row 3 and row 4 differ"):
        assert said(3, message) == message


def test_a_few_results_stand_beside_the_chart_and_many_beneath_it() -> None:
    for number, many in ((MOST_BESIDE, False), (MOST_BESIDE + 1, True)):
        results = tuple(lone(row, key=f"kind-{row}") for row in range(1, number + 1))
        entry = Entry("a.chart.yaml", "a", "A", "", None, results, Level.ERROR)
        assert ('<section class="results many"' in results_html(None, entry, Layout(), RULES)) is many


def test_a_result_without_a_row_comes_first() -> None:
    whole = Result("area/lone", "whole", Level.WARNING, "all of it", "a.chart.yaml", NOWHERE)
    told = tellings(None, [lone(1), whole], Level.ERROR, RULES)
    assert [t.spots[0].where for t in told] == ["Line 1 of the file", "Row 1, stitch 3"]


def spot(number: int) -> ResultPlace:
    return ResultPlace(f"result-{number}", f"row {number}", f"a <fault> in `row {number}`", number, 2, 4, None, 0)


def shown(telling: Telling) -> Any:
    made = html.fragment_fromstring(_telling(telling, lambda name: f"rules/{name}.html"))
    assert stray(made) == []
    return made


def words(part: Any) -> str:
    return " ".join(part.text_content().split())


def test_like_results_tell_their_first_places_and_how_many_there_are_besides() -> None:
    spots = tuple(spot(number) for number in range(1, 4))
    one = Telling("warning", False, "float/long", "Why.", "mend it", "3 `floats`", ("row 1", "row <2>"), spots, 0, ())
    page = shown(one)
    assert [words(p) for p in page.xpath(".//p[@class='places']")] == ["row 1; row <2>"]
    assert words(page.find(".//summary")) == "3 floats"
    assert [words(p) for p in page.xpath(".//p[@class='spot']")] == [
        f"row {number} A <fault> in row {number}" for number in (1, 2, 3)
    ]
    assert [p.get("data-of-row") for p in page.xpath(".//p[@class='spot']")] == ["1", "2", "3"]
    many = one._replace(places=tuple(f"row {n}" for n in range(1, 12)), more=1204)
    assert [words(p) for p in shown(many).xpath(".//p[@class='places']")] == [
        "; ".join(f"row {n}" for n in range(1, 9)) + "; and 3 more",
        "And 1,204 more, all in the report for machines.",
    ]
    assert shown(one._replace(places=())).xpath(".//p[@class='places']") == []


def test_a_kind_says_how_grave_it_is_which_rule_and_what_to_do() -> None:
    fixes = (AtHand("take <it> out", "--fix"), AtHand("or not", "--fix-all"))
    one = Telling("error", True, "grid/stitch-count", "It *matters*.", "add `one`", "", (), (spot(7),), 0, fixes)
    page = shown(one)
    assert (page.get("class"), page.get("data-level")) == ("result result-error blocks", "error")
    assert words(page.xpath(".//span[@class='level']")[0]) == "error, blocks release"
    assert [(words(a), a.get("href")) for a in page.xpath(".//a[@class='rule']")] == [
        ("grid/stitch-count", "rules/grid/stitch-count.html")
    ]
    assert [words(p) for p in page.xpath(".//p[@class='remedy']")] == [
        "Mend: add one", "Fix at hand: take <it> out (lintarsia check --fix)",
        "Fix at hand: or not (lintarsia check --fix-all)",
    ]  # fmt: skip
    assert page.xpath(".//p[@class='spot']/b[@class='see']/text()") == ["row 7"]
    marked = shown(one._replace(spots=(spot(7)._replace(mark=3),), blocks=False))
    (see,) = marked.xpath(".//a[@class='see']")
    assert dict(see.attrib) == {
        "class": "see", "href": "#c-mark-3", "data-mark": "3", "data-row": "7", "data-first": "2", "data-last": "4",
    }  # fmt: skip
    assert marked.get("class") == "result result-error"
    assert shown(one._replace(why="", remedy="", fixes=())).xpath(".//p[@class='remedy'] | .//details") == []


def test_a_place_with_a_remedy_of_its_own_says_it_there() -> None:
    own = spot(1)._replace(remedy="take `it` out", fixes=(AtHand("by <one>", "--fix"),))
    one = Telling("note", False, "area/lone", "", "as you like", "2 lone", (), (own, spot(2)), 0, ())
    (spots,) = shown(one).xpath(".//div[@class='spots']")
    assert [part.tag for part in spots] == ["div", "p"]
    assert [words(part) for part in spots[0]] == [
        "row 1 A <fault> in row 1", "Mend: take it out", "Fix at hand: by <one> (lintarsia check --fix)",
    ]  # fmt: skip
