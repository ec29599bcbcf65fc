"""More small parts of pages from values: the key's drawings by their names, excerpts of files that cannot be read, what
stands between ticks, pictures for previews, and the way from a piece in one size to the others."""

from dataclasses import replace
from pathlib import Path

import pytest
from lxml import html
from smallsite import FILES, write

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.brokenpage import EXCERPT, _excerpt
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.keyview import chip, make_key
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.piecepages import PiecePage, piece_pages
from lintarsia.publishing.pages.pieceview import _often, _sizes
from lintarsia.publishing.pages.quoted import sentence, with_code
from lintarsia.publishing.site.pagefiles import card_of
from lintarsia.reading import read_chart
from lintarsia.result import Level, Region, Result
from lintarsia.settings import Settings

TEXT = """\
lintarsia: 1
title: Key
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk <blue>, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
supplies:
  B: [{holder: bobbin}, {holder: bobbin}]
  W: [{holder: ball}]
chart: |
  BBWWWBBQ
  BBWWWBB.
"""


def test_the_keys_drawings_are_symbols_that_the_page_uses_by_number() -> None:
    chart = read_chart("key.chart.yaml", TEXT.encode()).chart
    assert chart is not None
    plan = make_plan(chart)
    key = make_key(chart, plan)
    assert key.number == {"B": 0, "W": 1, "Q": 2}
    assert key.name == {"B": "Dusk <blue>", "W": "Bone", "Q": "“Q”, not in the key"}
    assert list(key.holders.values()) == list(range(len(key.holders)))
    assert list(key.holders) == list(dict.fromkeys(supply.holder for supply in plan.supplies))
    drawing = html.fragment_fromstring(key.sprite)
    assert dict(drawing.attrib) == {
        "class": "sprite", "aria-hidden": "true", "focusable": "false", "width": "0", "height": "0",
    }  # fmt: skip
    symbols = [(symbol.get("id"), symbol.get("viewbox")) for symbol in drawing]
    assert symbols == [
        *((f"key-{number}", "0 0 24 20") for number in range(3)),
        *((f"hang-{number}", "-26 6 52 92") for number in range(len(key.holders))),
    ]
    assert all(len(symbol) for symbol in drawing)
    assert 'href="#key-2"' in chip(2)


BROKEN = Entry("a.chart.yaml", "a", "A", "", None, (), Level.ERROR)


def torn(*faults: tuple[Level, int], suppressed: bool = False) -> Entry:
    results = tuple(
        Result("file/unreadable", "k", level, "m", "a.chart.yaml", Region(line, 1, line, 2), suppressed=suppressed)
        for level, line in faults
    )
    return replace(BROKEN, results=results)


@pytest.mark.parametrize(
    ("faults", "shown", "marked"),
    [
        ([(Level.ERROR, 9)], range(5, 14), 9),
        ([(Level.ERROR, 2)], range(1, 7), 2),
        ([(Level.ERROR, 19)], range(15, 21), 19),
        ([(Level.WARNING, 2), (Level.ERROR, 12), (Level.ERROR, 9)], range(5, 14), 9),  # the first of the gravest
        ([(Level.NOTE, 3), (Level.WARNING, 14)], range(10, 19), 14),
    ],
)
def test_an_excerpt_is_around_the_first_of_the_gravest_faults(
    faults: list[tuple[Level, int]], shown: range, marked: int
) -> None:
    """Twenty lines; four on either side are shown."""
    text = "\n".join(f"{'x' * 250}" if number == 9 else f"line {number}" for number in range(1, 21))
    lines = list(_excerpt(torn(*faults), text))
    assert [number for number, _, _ in lines] == list(shown)
    assert [number for number, _, here in lines if here] == [marked]
    assert all(words == ("x" * 200 if number == 9 else f"line {number}") for number, words, _ in lines)
    assert EXCERPT == 4


def test_where_nothing_stands_there_is_no_excerpt() -> None:
    assert list(_excerpt(BROKEN, "a\nb")) == []
    assert list(_excerpt(torn((Level.ERROR, 1), suppressed=True), "a\nb")) == []


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("write `a` and `<b>`", "write <code>a</code> and <code>&lt;b&gt;</code>"),
        ("an odd ` tick", "an odd ` tick"),
        ("`a` and ` b", "`a` and ` b"),
        ("`a`", "<code>a</code>"),
        ("none & <none>", "none &amp; &lt;none&gt;"),
        ("", ""),
    ],
)
def test_what_stands_between_ticks_is_code(text: str, made: str) -> None:
    assert with_code(text) == made


def test_a_sentence_begins_with_a_capital() -> None:
    assert [sentence(text) for text in ("odd <one>", "`a` b", "", "7 b")] == [
        "Odd &lt;one&gt;", "<code>a</code> b", "", "7 b",
    ]  # fmt: skip


def test_a_preview_shows_the_cover_and_without_one_nothing() -> None:
    assert card_of(replace(BROKEN, cover="b/kite"), Layout()) == "charts/b/kite/card.png"
    assert card_of(BROKEN, Layout()) == ""


@pytest.fixture(scope="module")
def shore(tmp_path_factory: pytest.TempPathFactory) -> PatternWork:
    folder = tmp_path_factory.mktemp("pattern")
    write(folder, FILES)
    pattern = read_pattern(str(Path(folder) / "shore.pattern.yaml")).pattern
    assert pattern is not None
    return work_on(pattern, Settings(root=str(folder)))


def own(shore: PatternWork) -> list[PiecePage]:
    return [page for page in piece_pages(shore, "shore-pattern", ()) if page.piece.name == "front"]


def test_a_colon_in_the_pattern_s_title_is_no_part_of_a_piece_s_name(tmp_path: Path) -> None:
    write(tmp_path, FILES)
    pattern = read_pattern(str(tmp_path / "shore.pattern.yaml")).pattern
    assert pattern is not None
    titled = work_on(replace(pattern, title="Autumn: by the shore"), Settings(root=str(tmp_path)))
    assert [page.name for page in own(titled)] == ["front, small", "front, large"]


def test_a_piece_links_to_its_other_sizes_and_marks_its_own(shore: PatternWork) -> None:
    small, large = own(shore)
    here = Layout().chart(large.slug)
    links, other = html.fragments_fromstring(_sizes(large, [small, large], here, Layout()))
    assert (links.get("class"), links.get("aria-label"), links.findtext("span")) == ("sizes", "Sizes", "Size")
    assert [dict(link.attrib) | {"text": link.text_content()} for link in links.iter("a")] == [
        {"href": "front-small.html", "data-size": "small", "text": "small"},
        {"href": "front-large.html", "data-size": "large", "aria-current": "page", "text": "large"},
    ]
    assert dict(other.attrib) == {"class": "caution other-size", "data-part": "other-size", "hidden": ""}
    assert " ".join(other.text_content().split()).startswith("You have chosen")


def test_how_often_a_piece_is_knitted_is_said_where_it_is_more_than_once(shore: PatternWork) -> None:
    small, _ = own(shore)
    assert _often(small) == ""
    assert _often(replace(small, piece=replace(small.piece, times=dict.fromkeys(shore.pattern.sizes, 2)))) == (
        '<p class="often">Knit 2.</p>\n'
    )
