"""Lines that ask for a chart in somebody's page, what stands there, and what pages, rules and states are found by."""

from dataclasses import replace

import pytest

from lintarsia.chart import Chart
from lintarsia.ground.kinds import Kind
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.changespage import changes_page
from lintarsia.publishing.pages.entry import Entry, PieceEntry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.placedview import placed_chart
from lintarsia.publishing.pages.rulepages import _options
from lintarsia.publishing.pages.searchindex import GuidePage, changes_line, chart_lines, index_script
from lintarsia.publishing.pages.words import stamp_words
from lintarsia.publishing.site.directive import Directive, directives
from lintarsia.publishing.site.inpages import refuse
from lintarsia.reading import read_chart
from lintarsia.result import Level, Region, Result
from lintarsia.rules import catalogue
from lintarsia.telling.terms import Terms

PAGE = """\
::chart fox.chart.yaml
   ::chart  "a b.yaml" knit\t
    ::chart code.yaml
::charts no.yaml
::chart-x no.yaml
text ::chart no.yaml
```yaml
::chart fenced.yaml
~~~
``` no end
::chart fenced.yaml
````
::chart after.yaml
~~~~
::chart fenced.yaml
~~~
~~~~~
::chart
::chart 'c.yaml' fabric chart
"""


def test_lines_that_ask_stand_by_themselves_and_in_no_fence() -> None:
    """CommonMark 0.31: a fence is closed by one of its own kind, as long at least, with no words behind it; four blanks
    before a line make it code."""
    assert list(directives(PAGE)) == [
        Directive(0, "fox.chart.yaml"), Directive(1, '"a b.yaml" knit'), Directive(12, "after.yaml"),
        Directive(17, ""), Directive(18, "'c.yaml' fabric chart"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("said", "asked"),
    [
        ("fox.yaml", ("fox.yaml", ())),
        ("fox.yaml  knit\tfabric", ("fox.yaml", ("knit", "fabric"))),
        ('"a b.yaml" knit', ("a b.yaml", ("knit",))),
        ("'a b.yaml'", ("a b.yaml", ())),
        ("", None),
        ('"a b.yaml', None),
        ("''", None),
    ],
)
def test_what_a_line_asks_for(said: str, asked: tuple[str, tuple[str, ...]] | None) -> None:
    assert Directive(3, said).asked() == asked


TEXT = """\
lintarsia: 1
title: Kite & tail
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  BBBWW
  BBWWW
"""
KITE = Entry("a/kite.chart.yaml", "a/kite", "Kite & tail", "5 × 2", None, (), Level.ERROR, cover="a/kite",
             names=("Bone", "Moor DK"))  # fmt: skip


def chart(text: str = TEXT) -> Chart:
    found = read_chart("kite.chart.yaml", text.encode()).chart
    assert found is not None
    return found


def test_a_chart_in_a_page_has_its_cells_and_no_layer_and_its_fabric_no_drawing_of_its_own() -> None:
    own = chart()
    placed = placed_chart(own, make_plan(own), KITE, Terms.AMERICAN, fabric=False)
    assert placed.size is not None
    assert placed.drawing.startswith("<svg")
    assert "layer-supplies" not in placed.drawing
    assert placed.drawing.count("<rect") > 0
    assert "Dusk blue" in placed.key
    made = placed.html("../kite.html", "placed.svg")
    assert 'alt="Chart: Kite &amp; tail"' in made
    assert f'width="{placed.size[0]}" height="{placed.size[1]}"' in made
    worn = placed_chart(own, make_plan(own), KITE, Terms.AMERICAN, fabric=True)
    assert (worn.drawing, worn.size, worn.key) == ("", None, placed.key)
    assert 'alt="Kite &amp; tail"' in worn.html("x", "y")


@pytest.mark.parametrize(("worked", "way"), [("flat", "row by row"), ("round", "round by round")])
def test_the_way_to_its_page_says_whether_it_is_knitted_in_rows(worked: str, way: str) -> None:
    own = chart(TEXT.replace("gauge:", f"worked: {worked}\ngauge:"))
    made = placed_chart(own, make_plan(own), KITE, Terms.AMERICAN, fabric=False).html("x", "y")
    assert f">Knit it {way}</a>" in made


def test_what_cannot_be_shown_says_why() -> None:
    torn, bare = replace(KITE, summary="", figures=None, cover=""), replace(KITE, figures=None, cover="")
    pattern = replace(KITE, figures=None, kind=Kind.PATTERN)
    log = replace(bare, kind=Kind.KNIT)  # which has no page today, as other kinds may have without a drawing
    unmade = "cannot be shown, since no page to knit from can be made of it; lintarsia check says why"
    for entry, words, told in (
        (torn, (), unmade), (replace(bare, kind=Kind.PATTERN), (), unmade),
        (log, (), "is the log of a test knit, of which there is nothing to show; link to its page"),
        (pattern, ("fabric",), "is a pattern, shown with the fabric of its pieces; after it stands knit, or nothing"),
    ):  # fmt: skip
        with pytest.raises(Trouble) as refused:
            refuse(entry, words)
        assert str(refused.value) == told
    for entry, words in ((KITE, ()), (pattern, ("knit",)), (pattern, ())):
        refuse(entry, words)


def test_a_state_in_words() -> None:
    assert stamp_words("ab12") == "fingerprint ab12"
    assert stamp_words("ab12", "1.0", "commit 3f2a") == "version 1.0 · fingerprint ab12 · commit 3f2a"
    assert stamp_words("ab12", "", "changed since commit 3f2a") == "fingerprint ab12 · changed since commit 3f2a"


def test_what_a_chart_is_found_by() -> None:
    odd = Result("a/b", "k", Level.NOTE, "odd", KITE.file, Region(9, 1, 9, 2), fingerprint="ab")
    entry = replace(
        KITE, results=(odd, odd, replace(odd, suppressed=True, message="kept"), replace(odd, message="other")),
        pieces=(PieceEntry("a/kite/front", "Kite: front", "5 × 2"),),
    )  # fmt: skip
    piece = ("chart", "Kite: front", "5 × 2", "charts/a/kite/front.html")
    assert list(chart_lines(entry, Layout())) == [
        ("chart", "Kite & tail", "5 × 2 (a/kite.chart.yaml); Bone, Moor DK", "charts/a/kite.html"),
        piece,
        ("result", "Kite & tail: a/b", "odd", "charts/a/kite.html#result-ab"),
        ("result", "Kite & tail: a/b", "other", "charts/a/kite.html#result-ab-4"),
    ]
    assert list(chart_lines(entry, Layout(), public=True)) == [
        ("chart", "Kite & tail", "5 × 2; Bone, Moor DK", "charts/a/kite.html"), piece,
    ]  # fmt: skip
    (torn,) = chart_lines(replace(KITE, summary="", names=(), kind=Kind.PATTERN), Layout())
    assert torn[:3] == ("pattern", "Kite & tail", "cannot be read (a/kite.chart.yaml)")


def test_pages_of_changes_and_of_the_guide_are_found_as_well() -> None:
    line = changes_line("a/kite", "Kite", ["row 3", "row <4>"], Layout())
    assert line == ("changes", "Changes: Kite", "row 3; row <4>", "changes/a/kite.html")
    guide = GuidePage("guide/card", "The card", "All.", (("Parts", "parts", "One by one"),))
    made = index_script([line], None, [guide], Layout())
    assert made == (
        'globalThis.lintarsiaIndex=[["changes","Changes: Kite","row 3; row <4>","changes/a/kite.html"],'
        '["guide","The card","All.","guide/card.html"],'
        '["guide","Parts","The card: One by one","guide/card.html#parts"]];\n'
    )
    assert "since" not in changes_page("Kite", "a/kite", (), "2026-03-04", Layout()).partition("<section")[2]


def test_options_are_named_as_settings_name_them() -> None:
    names = [option.name for rule in catalogue.NAMES for option in _options(catalogue.load(rule))]
    assert names
    assert not any("_" in name or "XX" in name for name in names)
    assert any("-" in name for name in names)
    assert all(option.default for rule in catalogue.NAMES for option in _options(catalogue.load(rule)))
