"""A pattern as a document's parts: what stands on its cover and in which order, with sizes and without."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from lxml import etree

from lintarsia.drawing.export import size_of
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.stitchpage import in_its_stitch
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.caution import CAUTION
from lintarsia.publishing.document.composing import compose
from lintarsia.publishing.document.model import (
    Glossary,
    Key,
    Part,
    PatternDocument,
    Pictures,
    Prose,
    Rows,
    Table,
)
from lintarsia.publishing.document.written import Written
from lintarsia.settings import Settings
from lintarsia.written.page import rows_page
from lintarsia.written.style import Style

CHART = """\
lintarsia: 1
title: Gate
gauge: {stitches: 20, rows: 30, over: 10 cm, needle: 4 mm}
yarns:
  blue: {name: Moor DK, length: 100 m, mass: 50 g}
  silk: {name: Silk}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: blue}
  W: {name: Bone, shade: "#efe9dc", yarn: silk}
REPEATchart: |
  BBBBBBBB
  BBBWWBBB
  BBWWWBBB
  BBBBBBBB
"""
RING = (
    CHART.replace("title: Gate", "title: Ring\nworked: round\ntechnique: stranded")
    .replace(", needle: 4 mm", "")
    .replace("stitches: 20", "stitches: 24")
    .partition("REPEAT")[0]
    + "repeat: {stitches: [1, 4], rows: [1, 2]}\nchart: |\n  BWBWB\n  WBWBW\n"
)
SIZED = """\
lintarsia-pattern: 1
title: Set
version: "2.1"
notes: [Wash it cold., Dry it flat.]
sizes: [small, middle, large]
pieces:
  front: {chart: gate.chart.yaml, plain: B, cast-on: {small: 10, middle: 12, large: 15}, rows: 6, at: {row: 3}}
  hem: {colour: B, stitch: "k2, p2 rib", cast-on: 12, rows: 4, times: {small: 1, middle: 2, large: 2}}
seams: [{join: [front left, hem right]}]
"""
PLAIN = "lintarsia-pattern: 1\ntitle: One\npieces:\n  front: {chart: gate.chart.yaml}\n"
Made = Callable[..., PatternDocument]


@pytest.fixture
def made(tmp_path: Path) -> Made:
    def make(
        text: str, size: str | None = None, *, chart: str = CHART, ring: str = RING, wearer: str = "",
        paper: str = "A4", charted: bool = False, nested: bool = False, supplies: bool = False,
    ) -> PatternDocument:  # fmt: skip
        """`nested`: a page for all sizes of a piece, else one for each; `charted`: it speaks of the chart as drawn;
        `supplies`: its rows name their supplies."""
        (tmp_path / "gate.chart.yaml").write_text(chart.replace("REPEAT", wearer), encoding="utf-8")
        (tmp_path / "ring.chart.yaml").write_text(ring, encoding="utf-8")
        (tmp_path / "set.pattern.yaml").write_text(text, encoding="utf-8")
        read = read_pattern(str(tmp_path / "set.pattern.yaml"))
        assert read.pattern is not None
        work, style, pages = work_on(read.pattern, Settings(root=str(tmp_path))), Style(), dict[str, list]()
        for one in choose(work, None, size):
            pages.setdefault(one.piece.name if nested else one.name, []).append(one)
        written = []
        for name, ones in pages.items():
            plan = make_plan(ones[0].chart) if supplies else None
            page = in_its_stitch(rows_page(ones[0].chart, style=style, plan=plan), ones[0], style)
            written.append(Written(replace(page, title=f"{read.pattern.title}: {name}"), tuple(ones), charted))
        return compose(work, written, revision="abc1234", paper=paper)

    return make


def part(document: PatternDocument, title: str) -> Part:
    (found,) = [one for one in document.parts if one.title == title]
    return found


def titles(document: PatternDocument) -> list[str]:
    return [one.title for one in document.parts]


def only(where: Part, kind: type) -> list:
    return [block for block in where.blocks if isinstance(block, kind)]


def test_the_cover_of_a_pattern_in_sizes(made: Made) -> None:
    document = made(SIZED)
    assert (document.title, document.lede) == ("Set", "A pattern of 2 pieces, sizes small (middle, large).")
    assert document.facts == (
        ("Sizes", "small (middle, large)"), ("Gauge", "20 sts × 30 rows in 10 cm"), ("Needles", "4 mm"),
    )  # fmt: skip
    assert document.stamp.startswith("version 2.1 · fingerprint ")
    assert document.stamp.endswith("abc1234")
    assert document.face is not None
    assert (document.face.name, document.face.alt) == ("fabric", "front as knitted")


def test_the_cover_of_one_size_and_of_a_pattern_without(made: Made) -> None:
    one = made(SIZED, "middle")
    assert one.lede == "A pattern of 2 pieces, size middle."
    assert one.facts[0] == ("Size", "middle")
    alone = made(PLAIN)
    assert alone.lede == "A pattern of 1 piece."
    assert [what for what, _ in alone.facts] == ["Gauge", "Needles"]
    summed = made(PLAIN.replace("pieces:", "about: A gate to hang up.\npieces:"))
    assert summed.lede == "A gate to hang up."


def test_gauges_and_needles_are_told_once_each(made: Made) -> None:
    both = f"{PLAIN}  ring: {{chart: ring.chart.yaml}}\n  back: {{chart: gate.chart.yaml}}\n"
    facts = dict(made(both).facts)
    assert facts["Gauge"] == "20 sts × 30 rows in 10 cm; 24 sts × 30 rows in 10 cm"
    assert facts["Needles"] == "4 mm"
    ring = PLAIN.replace("gate.chart", "ring.chart")
    assert "Needles" not in dict(made(ring).facts)


def test_the_face_is_the_largest_size_of_the_piece_with_most_colours(made: Made) -> None:
    front = made(SIZED).face
    small = made(SIZED, "small").face
    assert front is not None
    assert small is not None
    wide, high = size_of(front.svg)
    assert front.wide_mm == pytest.approx(min(120, 105 * wide / high))
    assert wide / high > size_of(small.svg)[0] / size_of(small.svg)[1]
    plain = made("lintarsia-pattern: 1\ntitle: P\npieces:\n  front: {chart: gate.chart.yaml, times: 0}\n"
                 "  strap: {colour: B, cast-on: 4, rows: 9}\n")  # fmt: skip
    assert plain.face is None


def test_parts_stand_in_the_order_in_which_they_are_needed(made: Made) -> None:
    assert titles(made(SIZED)) == [
        "Sizes and measurements", "Materials", "Gauge", "Notes", "Abbreviations", "Front, small", "Hem, small",
        "Front, middle", "Hem, middle", "Front, large", "Hem, large", "Finishing", "Ends of front, small",
        "Ends of front, middle", "Ends of front, large",
    ]  # fmt: skip
    document = made(SIZED)
    assert {one.title for one in document.parts if one.fresh} == {
        "Front, small", "Front, middle", "Front, large", "Finishing",
    }  # fmt: skip
    assert {one.title for one in document.parts if one.level == 2} == {
        f"Ends of front, {size}" for size in ("small", "middle", "large")
    }


def test_measures_stand_as_schematics_and_as_a_table(made: Made) -> None:
    """10 stitches at 20 to 10 cm are 5 cm, 12 are 6, 15 are 7.5; 6 rows at 30 are 2 cm."""
    where = part(made(SIZED), "Sizes and measurements")
    (pictures,), (table,) = only(where, Pictures), only(where, Table)
    assert table == Table(
        ("Piece", "Measure", "Length"),
        (
            ("front", "width at the cast-on", "5 (6, 7.5) cm / 2 (2¼, 3) in"),
            ("", "height", "2 cm / ¾ in"),
            ("hem", "width at the cast-on", "6 cm / 2¼ in"),
            ("", "height", "1.3 cm / ½ in"),
        ),
        (2,),
        "Where there are several numbers, they are for small, middle, large",
    )
    front, hem = pictures.pictures
    assert (front.name, front.caption, hem.name, hem.caption) == ("schematic-front", "front", "schematic-hem", "hem")
    assert front.alt == ("Schematic of front: width at the cast-on 5 (6, 7.5) cm / 2 (2¼, 3) in; height 2 cm / ¾ in")
    assert front.wide_mm / size_of(front.svg)[0] == pytest.approx(hem.wide_mm / size_of(hem.svg)[0]), "one scale"
    assert max(front.wide_mm, hem.wide_mm) <= 78 + 1e-6
    assert only(part(made(SIZED, "small"), "Sizes and measurements"), Table)[0].caption == ""


def test_measures_that_the_pattern_states_stand_above_them(made: Made) -> None:
    stated = SIZED.replace("rows: 6, at", "measures: {width: {small: 5 cm, middle: 6 cm, large: 7.5 cm}}, rows: 6, at")
    (terms,) = only(part(made(stated), "Sizes and measurements"), Glossary)
    assert any("7.5 cm" in words for _, words in terms.lines)
    assert only(part(made(SIZED), "Sizes and measurements"), Glossary) == []


def test_yarn_is_a_table_by_size_and_the_rest_a_list(made: Made) -> None:
    where = part(made(SIZED), "Materials")
    (table,), (terms,) = only(where, Table), only(where, Glossary)
    assert table.head == ("Yarn", "small", "middle", "large")
    assert table.right == (1, 2, 3)
    assert table.caption == "With 10% to spare"
    assert [row[0] for row in table.rows] == ["Moor DK", "Silk"]
    assert not {"Moor DK", "Silk"} & {what for what, _ in terms.lines}
    assert dict(terms.lines)["Needles"] == "4 mm"
    large = only(part(made(SIZED, "large"), "Materials"), Table)[0]
    assert large.head == ("Yarn", "large")
    assert [row[1] for row in large.rows] == [row[3] for row in table.rows]
    assert only(part(made(PLAIN), "Materials"), Table)[0].head == ("Yarn", "Amount")


def test_notes_are_the_designer_s_then_what_all_pages_say_then_the_caution(made: Made) -> None:
    notes = [block.text for block in only(part(made(SIZED), "Notes"), Prose)]
    assert notes[:2] == ["Wash it cold.", "Dry it flat."]
    assert CAUTION not in notes
    for wearer in ("infant", "child"):
        told = made(PLAIN, wearer=f"wearer: {wearer}\n")
        assert [block.text for block in only(part(told, "Notes"), Prose)] == [CAUTION]
    assert "Notes" not in titles(made(PLAIN, wearer="wearer: adult\n"))


def test_what_is_said_of_all_pieces_is_said_once(made: Made) -> None:
    document = made(f"{PLAIN}  back: {{chart: gate.chart.yaml}}\n")
    (shared,) = [block.text for block in only(part(document, "Notes"), Prose)]
    assert "The count" in shared
    for name in ("Front", "Back"):
        assert not any("The count" in block.text for block in only(part(document, name), Prose))
    alone = made(PLAIN)
    assert any("The count" in block.text for block in only(part(alone, "Front"), Prose))


def test_a_piece_has_its_key_its_chart_its_supplies_and_its_rows(made: Made) -> None:
    document = made(SIZED)
    front, hem = part(document, "Front, small"), part(document, "Hem, middle")
    (key,), (pictures,), (rows,) = only(front, Key), only(front, Pictures), only(front, Rows)
    assert key.colours == (("B", "Dusk blue", "#27406b"), ("W", "Bone", "#efe9dc"))
    (chart,) = pictures.pictures
    assert (chart.name, chart.alt, chart.caption, chart.whole_page) == (
        "front-small",
        "Chart of Set: front, small",
        "",
        False,
    )
    assert [type(block) for block in front.blocks].index(Pictures) < [type(b) for b in front.blocks].index(Rows)
    assert rows.lines[0][0].startswith("Row 1")
    assert only(hem, Pictures) == []
    assert only(hem, Prose)[0].text.startswith("Knit 2. ")
    assert not only(part(document, "Hem, small"), Prose)[0].text.startswith("Knit")
    assert "k2, p2 rib" in only(hem, Prose)[0].text


def test_a_chart_is_as_large_as_its_cells_may_be(made: Made) -> None:
    """8 cells of at most 4.4 mm, beside them the numbers of the rows."""
    (pictures,) = only(part(made(PLAIN), "Front"), Pictures)
    (chart,) = pictures.pictures
    assert 8 * 4.4 < chart.wide_mm < 14 * 4.4
    assert chart.name == "front"
    assert etree.fromstring(chart.svg.encode()).get("class") == "lx lx-chart"


WIDE = "chart: |\n" + f"  {'B' * 90}\n" * 3


def test_a_chart_that_its_page_cannot_hold_is_cut_into_sheets_behind_the_rows(made: Made) -> None:
    wide = CHART.partition("REPEAT")[0] + WIDE
    for paper, breadth in (("A4", 210), ("Letter", 215.9)):
        where = part(made(PLAIN, chart=wide, paper=paper), "Front")
        (pictures,) = only(where, Pictures)
        drawn = pictures.pictures
        assert len(drawn) > 1
        assert [one.name for one in drawn] == [f"front-{number}" for number in range(1, len(drawn) + 1)]
        assert [one.alt for one in drawn] == [
            f"Chart of One: front, sheet {number} of {len(drawn)}" for number in range(1, len(drawn) + 1)
        ]
        assert {one.whole_page for one in drawn} == {True}
        assert all(one.wide_mm == pytest.approx(breadth, abs=0.2) or one.wide_mm > breadth for one in drawn)
        kinds = [type(block) for block in where.blocks]
        assert kinds.index(Pictures) > kinds.index(Rows)
        assert "The chart fills the pages behind the rows." in [block.text for block in only(where, Prose)]


REPEATED = """\
lintarsia-pattern: 1
title: Rings
sizes: [small, large]
pieces:
  front: {chart: ring.chart.yaml, repeats: {small: 3, large: 5}}
"""


@pytest.mark.parametrize(("worked", "where"), [("round", "around"), ("flat", "across")])
def test_a_chart_that_is_worked_so_many_times_is_drawn_once_with_its_repeat(
    made: Made, worked: str, where: str
) -> None:
    ring = RING if worked == "round" else RING.replace("worked: round\ntechnique: stranded", "worked: flat")
    document = made(REPEATED, nested=True, ring=ring)
    (chart,) = only(part(document, "Front"), Pictures)[0].pictures
    assert (chart.name, chart.alt, chart.caption) == ("front", "Chart of Ring", f"repeat 3 (5) times {where}")
    once = REPEATED.replace("{small: 3, large: 5}", "1")
    (chart,) = only(part(made(once, nested=True, ring=ring), "Front"), Pictures)[0].pictures
    assert chart.caption == "", "worked once, it is not worked so many times"


def test_sizes_that_are_laid_out_differently_have_a_chart_each_and_like_ones_share_one(made: Made) -> None:
    text = SIZED.replace("middle: 12, large: 15}, rows", "middle: 10, large: 15}, rows")
    (pictures,) = only(part(made(text, nested=True), "Front"), Pictures)
    assert [(one.name, one.caption) for one in pictures.pictures] == [
        ("front-small-middle", "small, middle"), ("front-large", "large"),
    ]  # fmt: skip
    alike = text.replace("large: 15}, rows", "large: 10}, rows")
    (pictures,) = only(part(made(alike, nested=True), "Front"), Pictures)
    assert [(one.name, one.caption) for one in pictures.pictures] == [("front-small-middle-large", "")]


def test_a_piece_as_charted_shows_the_chart_itself(made: Made) -> None:
    (pictures,) = only(part(made(SIZED, charted=True, nested=True), "Front"), Pictures)
    (chart,) = pictures.pictures
    assert (chart.name, chart.alt) == ("front", "Chart of Gate")


def test_a_name_for_a_file_is_of_letters_and_digits(made: Made) -> None:
    for name, file in (("Left Front 2", "left-front-2"), ("über/../rand", "ber-rand"), ("前", "piece")):
        document = made(PLAIN.replace("front:", f"{name}:"))
        assert [one.name for one in document.pictures] == ["fabric", f"schematic-{file}", file]


def test_what_is_sewn_on_in_the_end_stands_behind_the_rows_and_only_where_something_is(made: Made) -> None:
    sewn = "duplicate-stitch:\n  - {colour: W, row: 1, stitches: [2, 4]}\n"
    blocks = part(made(PLAIN, wearer=sewn), "Front").blocks
    head, told = blocks[-2:]
    assert isinstance(blocks[-3], Rows)
    assert head == Prose("Duplicate stitch, when the piece is finished:")
    assert told == Glossary((("W", "row 1, stitches 2–4"),))
    assert isinstance(part(made(PLAIN), "Front").blocks[-1], Rows)


def test_supplies_that_rows_name_stand_in_a_table_before_the_rows(made: Made) -> None:
    assert only(part(made(PLAIN), "Front"), Table) == []
    front = part(made(PLAIN, supplies=True), "Front")
    (table,) = only(front, Table)
    assert (table.head, table.right) == (("Supply", "Colour", "To wind"), ())
    assert table.caption == "To wind, tails and 10% to spare included"
    assert [row[:2] for row in table.rows] == [("B1", "Dusk blue"), ("W1", "Bone"), ("B2", "Dusk blue")]
    assert all(row[2].startswith(("on the ball, ", "loose strand, ")) for row in table.rows)
    kinds = [type(block) for block in front.blocks]
    assert kinds.index(Table) + 1 == kinds.index(Rows)
