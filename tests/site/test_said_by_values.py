"""What was said of a chart, to the letter, with the place where each remark's stitches are shown; and single chips."""

from pathlib import Path

import pytest
from lxml import etree
from smallchart import small_chart
from smallsite import FILES, write

from lintarsia.chart import Chart
from lintarsia.drawing.shades import edge_on, ink_on
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.knits.model import RemarkKind
from lintarsia.pattern.reading import read_pattern
from lintarsia.publishing.pages.keyview import lone_chip
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.patternpage import _place_of
from lintarsia.publishing.pages.piecepages import PiecePage, piece_pages
from lintarsia.publishing.pages.placedcover import _told
from lintarsia.publishing.pages.said import Said, Spot, place_words, said_html
from lintarsia.reading import read_chart
from lintarsia.settings import Settings

TROUBLE = Said(RemarkKind.TROUBLE, "too <tight>", "Wren & co", "small", "front", 9, (4, 6), "", "", "/p", chart="/c")


def chart(worked: str = "") -> Chart:
    found = read_chart("kite.chart.yaml", small_chart("Kite", ["BBBWW", "BBWWW"], more=worked).encode()).chart
    assert found is not None
    return found


def test_remarks_to_the_letter() -> None:
    lone = TROUBLE._replace(piece="", size="", row=2, stitches=None, kind=RemarkKind.PRAISE)
    asked = TROUBLE._replace(kind=RemarkKind.QUESTION, answered="yes & no", earlier="commit 3f2a19c", piece="")
    told = said_html(
        chart(), [(lone, Spot(2, None)), (TROUBLE, Spot(9, (4, 6))), (asked, Spot(8, (3, 3)))]
    ).splitlines()
    assert told == [
        f'<li class="said said-clear" id="said-0" data-of-row="2"><p class="said-head">{mark("clear")} '
        '<a href="#c-said-0" data-spot="#row-2">row 2</a> <span>praise</span></p>'
        '<p>“too &lt;tight&gt;”</p><p class="hint">Wren &amp; co</p></li>',
        f'<li class="said said-warning" id="said-1" data-of-row="9" data-of-stitches="4 6">'
        f'<p class="said-head">{mark("warning")} '
        '<a href="#c-said-1" data-spot="#row-9-s4-6">row 9, stitches 4–6</a> <span>trouble</span></p>'
        '<p>“too &lt;tight&gt;”</p><p class="hint">Wren &amp; co, small · said of front, row 9, stitches 4–6</p></li>',
        f'<li class="said said-clear" id="said-2" data-of-row="8" data-of-stitches="3 3">'
        f'<p class="said-head">{mark("clear")} '
        '<a href="#c-said-2" data-spot="#row-8-s3">row 8, stitch 3</a> <span>question</span></p>'
        '<p>“too &lt;tight&gt;”</p><p class="hint">Answered: yes &amp; no</p><p class="hint">Wren &amp; co, small · '
        "said of row 9, stitches 4–6 · of commit 3f2a19c</p></li>",
    ]
    rounds = said_html(chart("worked: round\n"), [(lone, Spot(2, None))])
    assert ">round 2</a>" in rounds
    assert said_html(chart(), []) == ""


def test_what_waits_for_an_answer_is_told_from_what_does_not() -> None:
    states = [
        (one.open, one.state)
        for one in (
            TROUBLE, TROUBLE._replace(answered="done"), TROUBLE._replace(kind=RemarkKind.QUESTION),
            TROUBLE._replace(kind=RemarkKind.QUESTION, answered="done"), TROUBLE._replace(kind=RemarkKind.PRAISE),
        )
    ]  # fmt: skip
    assert states == [(True, "warning"), (False, "clear"), (True, "note"), (False, "clear"), (False, "clear")]
    assert TROUBLE.place == "front, row 9, stitches 4–6"
    assert place_words("round", 3, None) == "round 3"
    assert place_words("row", 3, (2, 2), "belt") == "belt, row 3, stitch 2"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> tuple[PiecePage, ...]:
    """Of a pattern of two pieces in two sizes."""
    folder = tmp_path_factory.mktemp("pattern")
    write(folder, FILES)
    pattern = read_pattern(str(Path(folder) / "shore.pattern.yaml")).pattern
    assert pattern is not None
    return piece_pages(work_on(pattern, Settings(root=str(folder))), "shore-pattern", ())


@pytest.mark.parametrize(
    ("change", "address"),
    [
        ({}, "shore-pattern/front-small.html#row-9-s4-6"),
        ({"size": "large"}, "shore-pattern/front-large.html#row-9-s4-6"),
        ({"size": ""}, "shore-pattern/front-small.html#row-9-s4-6"),
        ({"piece": "belt", "size": "large"}, "shore-pattern/belt-large.html#row-9-s4-6"),
        ({"spot": None}, "a/kite.html#row-8-s3"),
        ({"piece": "hood"}, "a/kite.html#row-8-s3"),
        ({"size": "huge"}, "a/kite.html#row-8-s3"),
        ({"spot": None, "spot_in_chart": None}, ""),
        ({"piece": "hood", "chart": "/d"}, ""),
    ],
)
def test_a_remark_leads_to_its_piece_or_to_its_chart(
    pages: tuple[PiecePage, ...], change: dict[str, object], address: str
) -> None:
    said = TROUBLE._replace(spot=Spot(9, (4, 6)), spot_in_chart=Spot(8, (3, 3)))._replace(**change)  # type: ignore[arg-type]
    layout = Layout()
    found = _place_of(pages, {"/c": "a/kite"}, layout, layout.chart("shore-pattern"), said)
    assert found == address


def test_a_chip_by_itself_is_a_drawing_with_its_symbol_in_a_colour_that_can_be_read() -> None:
    made = lone_chip(chart(), "W")
    drawing = etree.fromstring(made)
    assert (drawing.get("class"), drawing.get("viewBox"), drawing.get("aria-hidden")) == ("key", "0 0 24 20", "true")
    cell, symbol = drawing
    assert (cell.tag, cell.get("fill"), cell.get("stroke")) == ("rect", "#efe9dc", edge_on("#efe9dc"))
    assert (symbol.tag, symbol.text, symbol.get("fill")) == ("text", "W", ink_on("#efe9dc"))


def test_pages_of_a_piece_are_told_apart_by_their_sizes(pages: tuple[PiecePage, ...]) -> None:
    assert [(page.name, _told(page), page.times()) for page in pages] == [
        ("front, small", "small", (1,)),
        ("front, large", "large", (1,)),
        ("belt, small", "small", (1,)),
        ("belt, large", "large", (1,)),
    ]
