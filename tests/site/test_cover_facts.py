"""What a pattern's cover tells, of one whose pieces have little in common: two gauges, one without needles and in
rounds; a size in which a piece is not knitted."""

from pathlib import Path

import pytest

from lintarsia.drawing.dimensions import Measured
from lintarsia.drawing.silhouette import silhouette
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.coverface import face
from lintarsia.publishing.pages.coverfacts import besides, facts, measurements, stated_of, yarns
from lintarsia.publishing.pages.patternpage import summary
from lintarsia.publishing.pages.piecepages import by_piece, in_sizes, piece_pages
from lintarsia.settings import Settings
from lintarsia.telling.terms import Terms

FLAT = """\
lintarsia: 1
title: Flat
gauge: {stitches: 20, rows: 28, over: 10 cm, needle: 4 mm}
yarns:
  w: {name: Moor DK, length: 100 m, mass: 50 g}
  s: {name: Silk}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
  R: {name: Rust, shade: "#b8743c", yarn: s}
chart: |
  BBWWBRBB
  BBWWBRBB
  BBBBBBBB
"""
ROUND = """\
lintarsia: 1
title: Round
worked: round
technique: stranded
gauge: {stitches: 24, rows: 26, over: 10 cm}
yarns:
  w: {name: Moor DK, length: 100 m, mass: 50 g}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
chart: |
  BWBWBW
  WBWBWB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Set
sizes: [small, large]
notions: {buttons: {small: 3, large: 5}}
pieces:
  cuff: {chart: round.chart.yaml, repeats: {small: 4, large: 5}, times: 2}
  front: {chart: flat.chart.yaml, plain: B, cast-on: {small: 12, large: 16}, rows: {small: 6, large: 9}}
  pocket: {colour: B, cast-on: 9, rows: 8, times: {small: 0, large: 1}}
"""


@pytest.fixture
def work(tmp_path: Path) -> PatternWork:
    return made(tmp_path, PATTERN)


def made(folder: Path, text: str) -> PatternWork:
    (folder / "flat.chart.yaml").write_text(FLAT, encoding="utf-8")
    (folder / "round.chart.yaml").write_text(ROUND, encoding="utf-8")
    (folder / "set.pattern.yaml").write_text(text, encoding="utf-8")
    pattern = read_pattern(str(folder / "set.pattern.yaml")).pattern
    assert pattern is not None
    return work_on(pattern, Settings(root=str(folder)))


def test_pages_of_pieces(work: PatternWork) -> None:
    pages = piece_pages(work, "set", ())
    assert [(page.piece.name, page.sizes, page.slug) for page in pages] == [
        ("cuff", ("small",), "set/cuff-small"), ("cuff", ("large",), "set/cuff-large"),
        ("front", ("small",), "set/front-small"), ("front", ("large",), "set/front-large"),
        ("pocket", ("large",), "set/pocket"),
    ] or [page.slug for page in pages][-1].startswith("set/pocket")  # fmt: skip
    assert {name: len(own) for name, own in by_piece(pages).items()} == {"cuff": 2, "front": 2, "pocket": 1}
    assert [one.size for page in pages for one in in_sizes(work, page)] == ["small", "large", "small", "large", "large"]


def test_what_a_knitter_asks_first(work: PatternWork) -> None:
    pages = piece_pages(work, "set", ())
    assert facts(work, pages) == [
        ("Sizes", "small, large"),
        ("Gauge", "24 sts × 26 rows in 10 cm; 20 sts × 28 rows in 10 cm"),
        ("Needles", "4 mm"),
        ("Worked", "in the round, flat"),
    ]
    assert [what for what, _ in facts(work, pages, Terms.BRITISH)][1] == "Tension"
    cuffs = [page for page in pages if page.piece.name == "cuff"]
    assert [what for what, _ in facts(work, cuffs)] == ["Sizes", "Gauge", "Worked"], "nobody says which needles"
    assert facts(work, ()) == [("Sizes", "small, large")]


def test_the_face_is_the_piece_with_most_colours(work: PatternWork) -> None:
    pages = piece_pages(work, "set", ())
    assert [page.piece.name for page in face(pages)] == ["front", "front"]
    plain = [page for page in pages if page.piece.name != "front"]
    assert [page.piece.name for page in face(plain)] == ["cuff", "cuff"], "a piece of one colour is no picture"


def test_how_large_a_pattern_is(work: PatternWork, tmp_path: Path) -> None:
    assert summary(work.pattern) == "pattern of 3 pieces in 2 sizes"
    one = made(tmp_path, 'lintarsia-pattern: 1\ntitle: One\nversion: "3"\npieces:\n  a: {chart: flat.chart.yaml}\n')
    assert summary(one.pattern) == "pattern of 1 piece, version 3"


def test_yarn_by_size(work: PatternWork) -> None:
    """Of silk nobody says how long a ball is, so it is told in metres alone."""
    lines = {line.what: line.values for line in yarns(work)}
    assert list(lines) == ["Moor DK", "Silk"]
    assert all(value.startswith("1 ball (") and value.endswith(" m)") for value in lines["Moor DK"])
    assert all("ball" not in value for value in lines["Silk"])
    small, large = (float(value.partition("(")[2].split()[0]) for value in lines["Moor DK"])
    assert small < large


def test_what_is_needed_besides(work: PatternWork) -> None:
    pages = piece_pages(work, "set", ())
    found = besides(work, pages)
    needed = dict(found.needed)
    assert needed["Needles"] == "4 mm"
    assert needed["Buttons"] == "3 (5)"
    assert not {"Moor DK", "Silk"} & set(needed)
    titles = [title for title, _ in found.sections]
    assert titles == ["Abbreviations", "Finishing"]
    sections = dict(found.sections)
    assert dict(sections["Abbreviations"])["k"] == "knit"
    assert [what for what, _ in sections["Finishing"] if what.startswith("Ends of")] == [
        "Ends of cuff", "Ends of front", "Ends of pocket",
    ]  # fmt: skip
    assert (besides(work, ()).needed, besides(work, ()).sections) == ((), ())


STATED = """\
lintarsia-pattern: 1
title: Stated
sizes: [small, middle, large]
pieces:
  front:
    chart: flat.chart.yaml
    plain: B
    cast-on: {small: 12, middle: 14, large: 16}
    rows: {small: 6, middle: 8, large: 9}
    measures: {width: {small: 6 cm, middle: 7 cm, large: 8 cm / 3 in}, height: {small: 2 in, large: 5 cm}}
  pocket: {colour: B, cast-on: 10, rows: 14, times: {small: 0, middle: 1, large: 1}}
"""


def measured(work: PatternWork, name: str) -> list[tuple[str, tuple[str, ...]]]:
    """The table of a piece's measures, of the sizes that it is knitted in."""
    own = [one for page in by_piece(piece_pages(work, "set", ()))[name] for one in in_sizes(work, page)]
    sizes, shapes = [one.size for one in own], [silhouette(one.chart) for one in own]
    return list(measurements(work, work.pattern.pieces[name], sizes, shapes))


def test_measures_are_those_that_the_pattern_states_else_those_of_stitches_and_rows(tmp_path: Path) -> None:
    """What is stated takes the place of what stitches and rows make; where it is for some sizes, others have a dash."""
    work = made(tmp_path, STATED)
    assert measured(work, "front") == [
        ("width", ("6 cm", "7 cm", "8 cm / 3 in")),
        ("height", ("2 in", "–", "5 cm")),
    ]


def test_a_size_in_which_a_piece_is_not_knitted_has_a_dash(tmp_path: Path) -> None:
    """10 stitches at 20 to 10 cm are 5 cm, 14 rows at 28 are 5 cm: of the key's own gauge."""
    assert measured(made(tmp_path, STATED), "pocket") == [
        ("width at the cast-on", ("–", "5 cm / 2 in", "5 cm / 2 in")),
        ("height", ("–", "5 cm / 2 in", "5 cm / 2 in")),
    ]


def test_a_schematic_takes_what_is_stated_in_all_of_its_sizes_in_both_units(tmp_path: Path) -> None:
    piece = made(tmp_path, STATED).pattern.pieces["front"]
    small, large = (60.0, 60.0), (80.0, pytest.approx(76.2))
    assert stated_of(piece, ["small", "large"]) == {
        Measured.CAST_ON: [small, large], Measured.HEIGHT: [pytest.approx((50.8, 50.8)), (50.0, 50.0)],
    }  # fmt: skip
    assert list(stated_of(piece, ["small", "middle"])) == [Measured.CAST_ON]
    other = STATED.replace("{small: 6 cm, middle: 7 cm, large: 8 cm / 3 in}", "{small: 6 cm, middle: 7 cm}")
    assert stated_of(made(tmp_path, other).pattern.pieces["front"], ["small", "large"]).keys() == {Measured.HEIGHT}


def test_a_yarn_that_a_size_does_not_take_has_a_dash_there(tmp_path: Path) -> None:
    text = STATED.replace("chart: flat.chart.yaml\n", "chart: {middle: flat.chart.yaml, large: flat.chart.yaml}\n")
    text = text.replace("times: {small: 0, middle: 1, large: 1}", "times: 1")
    lines = {line.what: line.values for line in yarns(made(tmp_path, text))}
    assert [value == "–" for value in lines["Silk"]] == [True, False, False]
    assert "–" not in lines["Moor DK"]


def test_yards_where_a_chart_counts_by_inches(tmp_path: Path) -> None:
    metric = yarns(made(tmp_path, PATTERN))
    for name, text in (("flat", FLAT), ("round", ROUND)):
        (tmp_path / f"{name}.chart.yaml").write_text(text.replace("over: 10 cm", "over: 4 in"), encoding="utf-8")
    pattern = read_pattern(str(tmp_path / "set.pattern.yaml")).pattern
    assert pattern is not None
    imperial = yarns(work_on(pattern, Settings(root=str(tmp_path))))
    units = (" yd)", " in")
    assert [line.what for line in imperial for value in line.values if value.endswith(units)] == [
        "Moor DK", "Moor DK", "Silk", "Silk",
    ]  # fmt: skip
    assert not any(value.endswith(units) for line in metric for value in line.values)
