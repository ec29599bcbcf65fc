"""Results as HTML to the letter, where a page is in English and where it is not; anchors; and rows in words."""

from dataclasses import replace

from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.resulthtml import _telling
from lintarsia.publishing.pages.resultview import AtHand, ResultPlace, Telling, anchors, stitches_words, where
from lintarsia.reading import read_chart
from lintarsia.result import NOWHERE, Level, Region, Result
from lintarsia.telling.catalogues import speaking

ONE = ResultPlace("result-1", "Row 7 (right side)", "odd <`B`>", 7, 2, 4, 3, 9)
TOLD = Telling("warning", True, "area/lone", "It `frays`.", "sew <it>", "2 places: lone", (), (ONE,), 0, ())


def told(telling: Telling, language: str = "en") -> str:
    with speaking(language):
        return _telling(telling, lambda name: f"../rules/{name}.html")


HEAD = (
    '<div class="result result-warning blocks" data-level="warning">\n'
    f'<p class="result-head">{mark("warning")} <span class="level">warning, blocks release</span> '
    '<a class="rule" href="../rules/area/lone.html">area/lone</a></p>\n'
)
WHY = (
    '<details class="why"><summary>What it means for the knitting</summary>'
    "<p>It <code>frays</code>.</p></details>\n"
)  # fmt: skip
SEE = (
    '<a class="see" href="#c-mark-3" data-mark="3" data-row="7" data-first="2" data-last="4">Row 7 (right side)</a> '
    "Odd &lt;<code>B</code>&gt;</p>"
)
MEND = '<p class="remedy"><b>Mend:</b> sew &lt;it&gt;</p>\n'


def test_one_result() -> None:
    spot = f'<p class="spot" id="result-1" data-of-row="7">{SEE}'
    assert told(TOLD) == f"{HEAD}{spot}\n{WHY}{MEND}</div>\n"
    plain = TOLD._replace(blocks=False, why="", remedy="", spots=(ONE._replace(mark=None, row=None),))
    assert told(plain) == (
        HEAD.replace(", blocks release", "").replace(" blocks", "")
        + '<p class="spot" id="result-1"><b class="see">Row 7 (right side)</b> Odd &lt;<code>B</code>&gt;</p>\n</div>\n'
    )


def test_what_can_be_done_at_a_place_and_for_all() -> None:
    fix = (AtHand("take <it> out", "--fix=risky"),)
    at_hand = (
        '<p class="remedy"><b>Fix at hand:</b> take &lt;it&gt; out '
        "<small>(<code>lintarsia check --fix=risky</code>)</small></p>\n"
    )
    made = told(TOLD._replace(fixes=fix, spots=(ONE._replace(remedy="sew <it>", fixes=fix),)))
    spot = f'<div><p class="spot" id="result-1" data-of-row="7">{SEE}{MEND}{at_hand}</div>'
    assert made == f"{HEAD}{spot}\n{WHY}{MEND}{at_hand}</div>\n"


def test_like_results_behind_one_heading() -> None:
    bare = ONE._replace(mark=None, message="odd")
    spots = (bare, bare._replace(anchor="result-2", where="Row 9", row=9))
    lines = (
        '<p class="spot" id="result-1" data-of-row="7"><b class="see">Row 7 (right side)</b> Odd</p>'
        '<p class="spot" id="result-2" data-of-row="9"><b class="see">Row 9</b> Odd</p>'
    )
    places = tuple(f"row {n}" for n in range(1, 11))
    made = told(TOLD._replace(spots=spots, places=places, more=3, why="", remedy=""))
    listed = "; ".join(places[:8])
    assert made == (
        f'{HEAD}<details class="alike"><summary>2 places: lone</summary>\n<p class="places">{listed}; and 2 more</p>\n'
        f'<div class="spots">{lines}</div>\n<p class="places">And 3 more, all in the report for machines.</p>\n'
        "</details>\n</div>\n"
    )
    few = told(TOLD._replace(spots=spots, places=places[:8], why="", remedy=""))
    assert f'<p class="places">{listed}</p>\n<div class="spots">{lines}</div>\n</details>' in few
    none = told(TOLD._replace(spots=spots, why="", remedy=""))
    assert "lone</summary>\n<div" in none


def test_in_another_language_what_rules_say_is_set_apart_as_english() -> None:
    made = told(TOLD, "de")
    for part in (
        '<span lang="en">Odd &lt;<code>B</code>&gt;</span></p>', '<p lang="en">It <code>frays</code>.</p>',
        '<span lang="en">sew &lt;it&gt;</span></p>',
    ):  # fmt: skip
        assert part in made
    assert "blocks release" not in made
    gathered = told(TOLD._replace(spots=(ONE, ONE), places=("row 1",)), "de")
    assert '<summary lang="en">2 places: lone</summary>\n<p class="places" lang="en">row 1</p>' in gathered


def test_like_fingerprints_have_anchors_of_their_own() -> None:
    one = Result("area/lone", "k", Level.WARNING, "m", "a.chart.yaml", NOWHERE, fingerprint="ab:cd_e" * 5)
    other = replace(one, fingerprint="ab")
    name = "result-abcdeabcdeabcdea"
    assert anchors([one, other, one, one, other]) == [name, "result-ab", f"{name}-2", f"{name}-3", "result-ab-2"]
    assert Layout().rule("area/lone").endswith("area/lone")


TEXT = """\
lintarsia: 1
title: Two
worked: {worked}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
chart: |
  BB
  BB
"""


def test_a_place_in_words() -> None:
    at = Result("a/b", "k", Level.NOTE, "m", "a.chart.yaml", Region(9, 1, 9, 2), 2, (1, 2))
    charts = {worked: read_chart("x", TEXT.format(worked=worked).encode()).chart for worked in ("flat", "round")}
    assert where(charts["flat"], at) == "Row 2 (wrong side), stitches 1–2"
    assert where(charts["flat"], replace(at, row=1, stitches=None)) == "Row 1 (right side)"
    assert where(charts["round"], replace(at, stitches=(2, 2))) == "Round 2, stitch 2"
    assert where(None, at) == "Row 2, stitches 1–2"
    assert where(charts["flat"], replace(at, row=None)) == "Line 9 of the file"
    assert (stitches_words(3, 3), stitches_words(3, 5)) == ("stitch 3", "stitches 3–5")
