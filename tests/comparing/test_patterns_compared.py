"""Two states of a pattern: what is said of it, by size, and what of its pieces."""

from pathlib import Path

import pytest

from lintarsia.comparing.model import Bought, Comparison, Fact, FileChange, PatternChange, State
from lintarsia.comparing.outline import outline
from lintarsia.comparing.patterns import compare_patterns
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.settings import Settings

CHART = """\
lintarsia: 1
title: Leaf
gauge: {stitches: 22, rows: 30, over: 10 cm}
yarns: {w: {name: Plain, length: 30 m, mass: 25 g}}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
chart: |
  BBBBBBBB
  BBBBWBBB
  BBBWWWBB
  BBBBWWBB
  BBBBBBBB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Pennant
version: "1.0"
sizes: [small, large]
pieces:
  flag:
    chart: leaf.chart.yaml
    cast-on: {small: 12, large: 15}
    rows: {small: 7, large: 9}
    plain: B
  back:
    chart: leaf.chart.yaml
    cast-on: 12
    rows: 7
    plain: B
"""


def work(folder: Path, text: str, chart: str = CHART) -> PatternWork:
    folder.mkdir(exist_ok=True)
    (folder / "leaf.chart.yaml").write_text(chart, encoding="utf-8")
    file = folder / "pennant.pattern.yaml"
    file.write_text(text, encoding="utf-8")
    pattern = read_pattern(str(file)).pattern
    assert pattern is not None
    return work_on(pattern, Settings(root=str(folder)))


def compared(folder: Path, old: str = "", new: str = "", was: str = PATTERN, chart: str = CHART) -> PatternChange:
    assert old in was
    now = was.replace(old, new) if old else was
    return compare_patterns(work(folder / "was", was), work(folder / "now", now, chart))


def facts(change: PatternChange) -> list[tuple[str, str | None, str | None]]:
    return [(fact.what, fact.was, fact.now) for fact in change.facts]


def test_the_same_is_nothing(tmp_path: Path) -> None:
    change = compared(tmp_path)
    assert (change.facts, change.pieces, change.stated, change.changed) == ((), (), {}, {})
    assert (change.was_version, change.now_version, change.sizes) == ("1.0", "1.0", ("small", "large"))


@pytest.mark.parametrize(
    ("old", "new", "fact"),
    [
        ("title: Pennant", "title: Streamer", ("the title", "Pennant", "Streamer")),
        ('version: "1.0"\n', "", ("the version", "1.0", "none")),
        ('version: "1.0"\n', 'version: "1.0"\nabout: a small flag\n', ("what it is", None, "a small flag")),
        ('version: "1.0"\n', 'version: "1.0"\nnotes: [Wash it.]\n', ("note 1", None, "Wash it.")),
        ('version: "1.0"\n', 'version: "1.0"\nwearer: child\n', ("the wearer", None, "child")),
        ('version: "1.0"\n', 'version: "1.0"\nallowance: 15 %\n', ("the allowance of yarn", None, "15%")),
        ('version: "1.0"\n', 'version: "1.0"\nseams: [{join: [flag left, back right]}]\n',
         ("seams", "", "flag left to back right")),
        ('version: "1.0"\n', 'version: "1.0"\nseams: [{join: [flag left, back right], rows: [2, 5]}]\n',
         ("seams", "", "flag left to back right, rows 2–5")),
        ('version: "1.0"\n', 'version: "1.0"\nswatch: 12 cm\n', ("the swatch", None, "12 cm")),
        ('version: "1.0"\n', 'version: "1.0"\ncolours: {M: {name: Moss, shade: "#5b7443"}}\n',
         ("colour M", None, "Moss, #5b7443")),
        ('version: "1.0"\n', 'version: "1.0"\nnotions: {buttons: {small: 3, large: 5}}\n',
         ("large: buttons", None, "5")),
        ('version: "1.0"\n', 'version: "1.0"\ntools: {markers: 4}\n', ("small and large: markers", None, "4")),
        ("    rows: 7\n    plain: B\n", "    rows: 7\n    plain: W\n", ("back: plain knitting in", "B", "W")),
        ("  back:\n", "  back:\n    mirror-of: flag\n", ("back: mirrors", None, "flag")),
    ],
)  # fmt: skip
def test_what_is_said_of_the_whole(
    tmp_path: Path, old: str, new: str, fact: tuple[str, str | None, str | None]
) -> None:
    assert fact in facts(compared(tmp_path, old, new))


YARNS = "yarns: {w: {name: Fjord, length: 100 m, mass: 50 g, balls: {small: 1, large: 2}}}\n"


def test_yarn_to_buy(tmp_path: Path) -> None:
    sized = PATTERN.replace("pieces:\n", f"{YARNS}pieces:\n")
    assert facts(compared(tmp_path, "large: 2}}", "large: 3}}", sized)) == [("large: balls of w", "2", "3")]
    assert facts(compared(tmp_path, "{small: 1, large: 2}", "{small: 2, large: 3}", sized)) == [
        ("small: balls of w", "1", "2"), ("large: balls of w", "2", "3"),
    ]  # fmt: skip
    assert facts(compared(tmp_path, "{small: 1, large: 2}", "4", sized)) == [
        ("small: balls of w", "1", "4"), ("large: balls of w", "2", "4"),
    ]  # fmt: skip
    assert facts(compared(tmp_path, "length: 100 m", "length: 90 m", sized)) == [
        ("length of a ball of w", "100 m", "90 m")
    ]
    assert facts(compared(tmp_path, "mass: 50 g", "mass: 40 g", sized)) == [("mass of a ball of w", "50 g", "40 g")]
    assert facts(compared(tmp_path, "name: Fjord", "name: Sound", sized)) == [("the yarn w", "Fjord", "Sound")]
    change = compared(tmp_path, "length: 100 m", "length: 1 m", sized)
    assert list(change.yarns) == ["w"]
    assert list(change.yarns["w"]) == ["small", "large"]
    was, now = change.yarns["w"]["large"]
    assert isinstance(was, Bought)
    assert isinstance(now, Bought)
    assert (was.name, was.balls, now.metres) == ("Fjord", 1, was.metres)
    assert now.balls is not None
    assert now.balls >= now.metres
    assert was.metres == round(was.metres, 2)


def test_in_one_size_no_size_is_named(tmp_path: Path) -> None:
    one = (
        PATTERN.replace("sizes: [small, large]\n", "yarns: {w: {balls: 1}}\n")
        .replace("{small: 12, large: 15}", "12").replace("{small: 7, large: 9}", "7")
    )  # fmt: skip
    assert facts(compared(tmp_path, "balls: 1", "balls: 2", one)) == [("balls of w", "1", "2")]
    assert facts(compared(tmp_path, "rows: 7\n    plain: B\n  back", "rows: 8\n    plain: B\n  back", one)) == [
        ("flag: rows", "7", "8")
    ]


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ("{small: 12, large: 15}", "{small: 12, large: 17}", ("flag, large: stitches cast on", "15", "17")),
        ("{small: 7, large: 9}", "{small: 8, large: 9}", ("flag, small: rows", "7", "8")),
        ("    cast-on: 12\n", "    cast-on: 12\n    times: {small: 1, large: 2}\n",
         ("back, small: knitted so many times", None, "1")),
        ("    cast-on: 12\n", "    cast-on: 12\n    at: {stitch: 2, row: 3}\n",
         ("back, small and large: first stitch of the motif", None, "2")),
        ("    cast-on: 12\n", "    cast-on: 12\n    at: {stitch: 2, row: 3}\n",
         ("back, small and large: first row of the motif", None, "3")),
        ("    cast-on: 12\n    rows: 7\n", "    repeats: 2\n    row-repeats: 3\n    edge: 2\n",
         ("back, small and large: repeats across", None, "2")),
        ("    cast-on: 12\n    rows: 7\n", "    repeats: 2\n    row-repeats: 3\n    edge: 2\n",
         ("back, small and large: repeats upwards", None, "3")),
        ("    cast-on: 12\n    rows: 7\n", "    repeats: 2\n    row-repeats: 3\n    edge: 2\n",
         ("back, small and large: edge stitches", None, "2")),
        ("    cast-on: 12\n", "    cast-on: 12\n    measures: {width: {small: 5 cm, large: 6 cm}}\n",
         ("back, large: width", None, "6 cm")),
    ],
)  # fmt: skip
def test_numbers_are_told_of_the_sizes_that_have_them(
    tmp_path: Path, old: str, new: str, what: tuple[str, str | None, str | None]
) -> None:
    change = compared(tmp_path, old, new)
    assert what in facts(change)
    piece = what[0].partition(",")[0]
    measured = what[0].endswith("width")
    assert (piece in change.stated) is not measured, "a measure is only what the numbers come to"


def test_in_which_sizes_something_is_stated_otherwise(tmp_path: Path) -> None:
    change = compared(tmp_path, "{small: 12, large: 15}\n    rows: {small: 7, large: 9}",
                      "{small: 13, large: 15}\n    rows: {small: 8, large: 10}")  # fmt: skip
    assert change.stated == {"flag": ("small", "large")}
    assert change.changed == {"flag": {"small", "large"}}


def states(change: PatternChange) -> list[tuple[str, str, State]]:
    return [(piece.piece, piece.size, piece.state) for piece in change.pieces]


def test_pieces_that_came_and_went(tmp_path: Path) -> None:
    hood = "  hood: {chart: leaf.chart.yaml, cast-on: 9, rows: 6, plain: B, times: {small: 0, large: 2}}\n"
    came = compared(tmp_path, "  back:\n", f"{hood}  back:\n")
    assert states(came) == [("hood", "large", State.ADDED)], "it is not knitted in the small size"
    (piece,) = came.pieces
    assert (piece.was_fingerprint, piece.change, piece.chart) == (None, None, "leaf.chart.yaml")
    assert piece.now_fingerprint
    assert ("the piece hood", None, "") in facts(came)
    gone = compared(tmp_path, hood, "", PATTERN.replace("  back:\n", f"{hood}  back:\n"))
    assert states(gone) == [("hood", "large", State.REMOVED)]
    assert gone.pieces[0].chart == "leaf.chart.yaml"
    assert ("the piece hood", "", None) in facts(gone)


def test_a_size_that_came(tmp_path: Path) -> None:
    change = compared(
        tmp_path, "sizes: [small, large]", "sizes: [small, large, huge]",
        PATTERN.replace("large: 15}", "large: 15, huge: 18}").replace("large: 9}", "large: 9, huge: 11}"),
    )  # fmt: skip
    assert change.sizes == ("small", "large", "huge")
    assert ("sizes", "small, large", "small, large, huge") in facts(change)
    assert states(change) == [("flag", "huge", State.ADDED), ("back", "huge", State.ADDED)]
    assert change.yarns["w"]["huge"][0] is None
    assert change.yarns["w"]["huge"][1] is not None


def test_a_size_that_went_is_told_last(tmp_path: Path) -> None:
    was = PATTERN.replace("[small, large]", "[tiny, small, large]").replace("{small: 12", "{tiny: 9, small: 12")
    was = was.replace("{small: 7", "{tiny: 6, small: 7")
    change = compared(tmp_path, "[tiny, small", "[small", was)
    assert change.sizes == ("small", "large", "tiny")
    assert states(change) == [("flag", "tiny", State.REMOVED), ("back", "tiny", State.REMOVED)]


def test_a_stitch_of_the_chart_changes_every_piece(tmp_path: Path) -> None:
    change = compared(tmp_path, chart=CHART.replace("BBBWWWBB", "BBBWBWBB"))
    assert states(change) == [(piece, size, State.CHANGED) for piece in ("flag", "back") for size in ("small", "large")]
    assert all(piece.change is not None and len(piece.change.rows) == 1 for piece in change.pieces)
    assert all(piece.was_fingerprint != piece.now_fingerprint for piece in change.pieces)


def test_the_pattern_s_title_changes_no_piece(tmp_path: Path) -> None:
    assert compared(tmp_path, "title: Pennant", "title: Streamer").pieces == ()


BELT = "  belt: {colour: B, cast-on: {small: 6, large: 8}, rows: 20}\n"


def test_a_piece_without_a_chart_is_told_by_its_numbers(tmp_path: Path) -> None:
    was = PATTERN.replace("  back:\n", f"{BELT}  back:\n")
    longer = compared(tmp_path, "rows: 20}", "rows: 24}", was)
    assert (facts(longer), longer.pieces) == ([("belt, small and large: rows", "20", "24")], ())
    assert longer.changed == {"belt": {"small", "large"}}
    shaped = compared(tmp_path, "rows: 20}", "rows: 20, shaping: {large: {5: {right: -1}}}}", was)
    assert states(shaped) == [("belt", "large", State.CHANGED)]
    assert compared(tmp_path, BELT, "", was).pieces == ()


MOVED = PATTERN.replace("    plain: B\n  back", "    plain: B\n    at: {stitch: {small: 2, large: 4}, row: 2}\n  back")


def test_a_motif_that_moved_is_no_number(tmp_path: Path) -> None:
    change = compared(tmp_path, "large: 4}", "large: 6}", MOVED)
    assert facts(change) == []
    assert states(change) == [("flag", "large", State.CHANGED)]
    (piece,) = change.pieces
    assert piece.change is not None
    assert piece.change.motif is not None
    assert (piece.change.motif.was, piece.change.motif.now, piece.change.rows) == ((4, 2), (6, 2), ())
    assert len(piece.change.motif.rows) == 3
    file = FileChange("a", "a", State.CHANGED, "1", "2", None, change, title="Pennant")
    (section,) = outline(Comparison("v1", "v2", (file,)))
    (item,) = section.items
    assert item.words == (
        "flag, large: the motif begins at stitch 6, not 4; unchanged up to row 2: whoever is no further goes on with "
        "the new chart"
    )


def test_a_motif_that_is_another_altogether_has_not_moved(tmp_path: Path) -> None:
    """What the move leaves to tell is no less than all of it: the place is told as a number then."""
    other = CHART.replace("BBBBWBBB", "WBWBWBWB").replace("BBBWWWBB", "BWBWBWBW").replace("BBBBWWBB", "WWBBWWBB")
    change = compared(tmp_path, "large: 4}", "large: 6}", MOVED, other)
    (large,) = (piece for piece in change.pieces if (piece.piece, piece.size) == ("flag", "large"))
    assert large.change is not None
    assert large.change.motif is None
    assert len(large.change.rows) == 3
    assert ("flag, large: first stitch of the motif", "4", "6") in facts(change)


def test_a_motif_whose_place_is_stated_first_is_told_by_rows(tmp_path: Path) -> None:
    change = compared(tmp_path, "    at: {stitch: {small: 2, large: 4}, row: 2}\n", "", MOVED)
    assert all(piece.change is None or piece.change.motif is None for piece in change.pieces)
    assert ("flag, small: first stitch of the motif", "2", None) in facts(change)


def test_nothing_but_facts(tmp_path: Path) -> None:
    change = compared(tmp_path, 'version: "1.0"', 'version: "1.1"')
    assert change.facts == (Fact("the version", "1.0", "1.1"),)
    file = FileChange("a", "a", State.CHANGED, "1", "1", None, change, title="Pennant")
    (section,) = outline(Comparison("v1", "v2", (file,)))
    assert section.lead == "every piece is knitted as before"


def test_a_piece_of_which_no_row_is_another(tmp_path: Path) -> None:
    change = compared(tmp_path, chart=CHART.replace("name: Bone", "name: Ivory"))
    file = FileChange("a", "a", State.CHANGED, "1", "2", None, change, title="Pennant")
    (section,) = outline(Comparison("v1", "v2", (file,)))
    assert [item.words for item in section.items] == [
        "flag, small and large: every row is unchanged: go on where you are",
        "back, small and large: every row is unchanged: go on where you are",
    ]
