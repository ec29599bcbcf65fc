"""A chart on the wall and in the table of the overview, to the letter: what is shown, and what a script sorts by."""

from dataclasses import replace

import pytest
from lxml import html

from lintarsia.chart import Worked
from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.entry import Entry, Figures, PatternPart, Standing, tally_of
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.overview import _counted, overview_page
from lintarsia.publishing.pages.swatches import AT_ONCE, swatch, table_row
from lintarsia.publishing.pages.words import worked_words
from lintarsia.result import Level, Region, Result

FIGURES = Figures(12, 7, "5.5 × 2.3 cm", "intarsia", "worked flat", 3, 2, 8, 6, 4.25, "4.3 m", (180, 96), 12.65)
KITE = Entry("a/kite.chart.yaml", "a/kite", "Kite & <tail>", "12 × 7", FIGURES, (), Level.ERROR, cover="a/kite")
NUMBERS = (
    '<td class="n">12 × 7</td><td class="n">5.5 × 2.3 cm</td><td>intarsia</td><td class="n">3</td><td class="n">2</td>'
    '<td class="n">6</td><td class="n">4.3 m</td>'
)
TITLE = "Kite &amp; &lt;tail&gt;"
SORTED = (
    ' data-technique="intarsia" data-stitches="84" data-supplies="3" data-fullest="2" data-ends="6" '
    'data-metres="4.25" data-area="12.65"'
)
FACTS = "12 × 7 stitches, 5.5\u00a0×\u00a02.3\u00a0cm<br>intarsia, 4.3 m of yarn<br>3 supplies, 2 at once, 6 ends"


def found(*levels: Level, file: str = "a/kite.chart.yaml", suppressed: bool = False) -> tuple[Result, ...]:
    where = Region(1, 1, 1, 2)
    return tuple(Result("a/b", "k", level, "m", file, where, suppressed=suppressed) for level in levels)


def test_a_swatch_to_the_letter() -> None:
    entry = replace(KITE, results=found(Level.ERROR, Level.WARNING, Level.WARNING, Level.NOTE))
    assert swatch(2, entry, "a/kite.html", "a/kite.svg", "a/kite.chart.yaml") == (
        f'<li class="swatch is-blocks" data-n="2" data-title="{TITLE}" data-file="a/kite.chart.yaml" '
        f'data-state="blocks" data-errors="1" data-warnings="2" data-notes="1"{SORTED}>\n'
        '<span class="frame"><img src="a/kite.svg" alt="" width="180" height="96" decoding="async"></span>\n'
        f'<div><a class="name" href="a/kite.html">{TITLE} <small>a/kite.chart.yaml</small></a>\n'
        f'<p class="state state-blocks">{mark("blocks")} 1 result blocks release</p>\n'
        f'<p class="facts">{FACTS}</p></div>\n</li>\n'
    )


def test_for_everybody_a_swatch_tells_nothing_of_what_was_found() -> None:
    entry = replace(KITE, results=found(Level.ERROR))
    assert swatch(2, entry, "a/kite.html", "a/kite.svg", "", public=True) == (
        f'<li class="swatch" data-n="2" data-title="{TITLE}"{SORTED}>\n'
        '<span class="frame"><img src="a/kite.svg" alt="" width="180" height="96" decoding="async"></span>\n'
        f'<div><a class="name" href="a/kite.html">{TITLE}</a>\n<p class="facts">{FACTS}</p></div>\n</li>\n'
    )


def test_pictures_further_down_are_loaded_when_one_comes_near() -> None:
    made = [swatch(number, KITE, "x", "y", "") for number in (AT_ONCE - 1, AT_ONCE)]
    assert ['height="96" loading="lazy" decoding="async"' in one for one in made] == [False, True]
    assert ["lazy" in one for one in made] == [False, True]


def test_what_is_worked_in_rounds_is_counted_in_rounds() -> None:
    entry = replace(KITE, figures=replace(FIGURES, worked=worked_words(Worked.ROUND)))
    made, row = swatch(2, entry, "x", "y", ""), table_row(2, entry, "x", "")
    assert f'{SORTED} data-worked="round">\n' in made
    assert row.startswith('<tr class="is-clear" data-n="2" data-worked="round"><th')
    assert "data-worked" not in swatch(2, KITE, "x", "y", "")


def test_a_gauge_that_is_only_stood_in_for_gives_no_area() -> None:
    made = swatch(2, replace(KITE, figures=replace(FIGURES, area=0.0)), "x", "y", "")
    assert 'data-metres="4.25">\n' in made


@pytest.mark.parametrize(
    ("entry", "torn", "facts"),
    [
        (replace(KITE, figures=None, cover="", summary=""), "cannot be read", "a/kite.chart.yaml"),
        (replace(KITE, figures=None, cover="", summary="", kind=Kind.PATTERN), "cannot be read", "a/kite.chart.yaml"),
        (replace(KITE, figures=None, cover="", kind=Kind.PATTERN), "pattern", "12 × 7"),
        (replace(KITE, figures=None, cover=""), "chart", "12 × 7"),
    ],
)
def test_what_has_no_picture_says_what_it_is(entry: Entry, torn: str, facts: str) -> None:
    made = swatch(2, entry, "x.html", "y", "")
    assert made == (
        f'<li class="swatch is-clear" data-n="2" data-title="{TITLE}" data-file="a/kite.chart.yaml" '
        'data-state="clear" data-errors="0" data-warnings="0" data-notes="0">\n'
        f'<span class="frame"><span class="torn">{torn}</span></span>\n'
        f'<div><a class="name" href="x.html">{TITLE}</a>\n'
        f'<p class="state state-clear">{mark("clear")} nothing to mend</p>\n<p class="facts">{facts}</p></div>\n</li>\n'
    )


def test_a_cover_without_figures_has_a_picture_of_no_stated_size() -> None:
    made = swatch(2, replace(KITE, figures=None, kind=Kind.PATTERN), "x", "y.svg", "")
    assert '<span class="frame"><img src="y.svg" alt="" decoding="async"></span>' in made


@pytest.mark.parametrize(
    ("levels", "state", "told", "counts"),
    [
        ((Level.ERROR, Level.ERROR, Level.NOTE), "blocks", "2 block", (2, 0, 1)),
        ((Level.ERROR,), "blocks", "1 blocks", (1, 0, 0)),
        ((Level.WARNING, Level.NOTE, Level.NOTE), "warning", "1 warning, 2 notes", (0, 1, 2)),
        ((Level.NOTE,), "note", "1 note", (0, 0, 1)),
        ((), "clear", "clear", (0, 0, 0)),
    ],
)
def test_a_row_of_the_table_to_the_letter(
    levels: tuple[Level, ...], state: str, told: str, counts: tuple[int, int, int]
) -> None:
    entry = replace(KITE, results=(*found(*levels), *found(Level.ERROR, suppressed=True)))
    errors, warnings, notes = counts
    assert table_row(5, entry, "a/kite.html", "a/kite.chart.yaml") == (
        f'<tr class="is-{state}" data-n="5"><th scope="row"><a href="a/kite.html">{TITLE}</a> '
        f'<small>a/kite.chart.yaml</small></th><td class="state state-{state}">{mark(state)} {told}</td>{NUMBERS}'
        f'<td class="n">{errors}</td><td class="n">{warnings}</td><td class="n">{notes}</td></tr>\n'
    )
    assert table_row(5, entry, "a/kite.html", "a/kite.chart.yaml", public=True) == (
        f'<tr data-n="5"><th scope="row"><a href="a/kite.html">{TITLE}</a></th>{NUMBERS}</tr>\n'
    )


def test_a_row_of_what_has_no_numbers_says_why() -> None:
    for summary, told in (("", "cannot be read"), ("pattern of <2> pieces", "pattern of &lt;2&gt; pieces")):
        made = table_row(5, replace(KITE, figures=None, summary=summary), "x", "")
        assert f'<td colspan="7">{told}</td><td class="n">0</td>' in made
        assert "</a></th><td class" in made


def test_what_blocks_elsewhere_and_in_the_charts_of_a_pattern_counts() -> None:
    own = found(Level.WARNING, Level.NOTE) + found(Level.WARNING, file="b.chart.yaml")
    assert tally_of(own, Level.ERROR) == (0, 0, 2, 1)
    assert tally_of(own, Level.ERROR, {"b.chart.yaml": Level.WARNING}) == (1, 0, 2, 1)
    assert tally_of(own, Level.OFF) == (0, 0, 2, 1)
    parts = (PatternPart("A", "a", Standing(1, 2, 0, 0)), PatternPart("B", "", Standing(0, 0, 3, 4)))
    pattern = replace(KITE, results=own, parts=parts)
    assert tuple(pattern.tally) == (1, 2, 5, 5)
    assert pattern.order == (-1, -2, -5, -5, "kite & <tail>", "a/kite.chart.yaml")
    assert pattern.verdict == "1 result blocks release"
    assert replace(KITE, results=found(Level.WARNING, Level.WARNING)).state == "warning"
    assert replace(KITE, results=found(Level.ERROR), blocking=Level.OFF).state == "warning"
    assert (KITE.about, replace(KITE, summary="").about) == ("12 × 7", "A file that cannot be read yet.")


def shown(*entries: Entry, public: bool = False) -> tuple[list[str], list[str], str]:
    """The table's columns, the names in the order of the page, and the page."""
    page = html.fromstring(overview_page("Kites", entries, Layout(), public=public))
    heads = [" ".join(head.text_content().split()) for head in page.xpath("//thead//th")]
    names = [" ".join(link.text_content().split()) for link in page.xpath("//a[@class='name']")]
    return heads, names, " ".join(page.text_content().split())


NUMBERED = ["Stitches × rows", "Size", "Technique", "Supplies", "Fullest row", "Ends", "Yarn"]


def test_for_everybody_the_table_has_no_column_of_what_was_found_and_goes_by_title() -> None:
    """Patterns come first there; else what blocks does, then what has most to mend."""
    pear = replace(KITE, title="pear", results=found(Level.ERROR), file="pear.chart.yaml", slug="pear")
    owl = replace(KITE, title="Owl", results=found(Level.WARNING), file="owl.chart.yaml", slug="owl")
    pattern = replace(KITE, title="Zip", figures=None, kind=Kind.PATTERN, slug="zip", file="zip.pattern.yaml")
    heads, names, told = shown(owl, pattern, pear)
    assert heads == ["Chart", "State", *NUMBERED, "Errors", "Warnings", "Notes"]
    assert names == ["pear", "Owl", "Zip"]
    assert "2 charts and 1 pattern" in told
    heads, names, told = shown(owl, pear, pattern, public=True)
    assert heads == ["Chart", *NUMBERED]
    assert names == ["Zip", "Owl", "pear"]
    assert "pear.chart.yaml" not in told


def test_charts_and_patterns_are_counted_apart() -> None:
    pattern = replace(KITE, figures=None, kind=Kind.PATTERN)
    assert [_counted(entries) for entries in ((), (KITE,), (pattern,), (pattern,) * 2, (KITE, KITE, pattern))] == [
        "0 charts", "1 chart", "1 pattern", "2 patterns", "2 charts and 1 pattern",
    ]  # fmt: skip
