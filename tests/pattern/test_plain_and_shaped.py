"""Pieces without a chart, and shaping by size, each against the same piece drawn by hand as a chart."""

from pathlib import Path

import pytest
from test_pieces_by_hand import by_hand, chart_file, pattern, plan_of

from lintarsia.engine import check_paths
from lintarsia.pattern.buying import needs_of
from lintarsia.pattern.reading import read_pattern
from lintarsia.planning.planner import make_plan
from lintarsia.written import write_rows


def test_a_plain_back_beside_a_front_with_a_motif(tmp_path: Path) -> None:
    """Armholes at the beginning of rows 3 and 4, and the large size wider and its armholes higher."""
    text = """\
sizes: [s, l]
pieces:
  front: {chart: f.chart.yaml}
  back:
    colour: B
    cast-on: {s: 8, l: 10}
    rows: {s: 5, l: 6}
    shaping: {s: {3: {right: -3}, 4: {left: -3}}, l: {4: {left: -4}, 5: {right: -4}}}
"""
    work = pattern(tmp_path, text, f=chart_file("BWR BBB"))
    hands = {
        "s": by_hand("...BB... ...BB... BBBBB... BBBBBBBB BBBBBBBB", "shaping:\n  3: {right: -3}\n  4: {left: -3}\n"),
        "l": by_hand(
            "....BB.... ....BB.... ....BBBBBB BBBBBBBBBB BBBBBBBBBB BBBBBBBBBB",
            "shaping:\n  4: {left: -4}\n  5: {right: -4}\n",
        ),
    }
    for size, hand in hands.items():
        laid = work.laid(work.pattern.pieces["back"], size)
        assert laid is not None
        assert laid.chart.grid.rows == hand.grid.rows
        assert plan_of(laid.chart) == plan_of(hand)
        assert write_rows(laid.chart) == write_rows(hand)
        fronts = make_plan(by_hand("BWR BBB")).totals.metres
        assert needs_of(work, size)["dk"].metres == pytest.approx(make_plan(hand).totals.metres + fronts)
        assert needs_of(work, size)["dk"].pieces == ("front", "back")


def test_a_sleeve_that_grows_over_a_motif(tmp_path: Path) -> None:
    """Increases at both edges make the grid wider than the cast-on; the motif keeps its place above stitch 2."""
    text = """\
pieces:
  sleeve:
    {chart: f.chart.yaml, plain: B, cast-on: 4, rows: 5, at: {stitch: 2, row: 2},
     shaping: {2-4/2: {left: 1, right: 1}, 5: {left: 2}}}
"""
    work = pattern(tmp_path, text, f=chart_file("RW"))
    rows = "BBBBBBBBBB ..BBBBBBBB ...BBBBBB. ...BBRWBB. ....BBBB.."
    hand = by_hand(rows, "shaping:\n  2-4/2: {left: 1, right: 1}\n  5: {left: 2}\n")
    laid = work.laid(work.pattern.pieces["sleeve"], "one size")
    assert laid is not None
    assert laid.chart.grid.rows == hand.grid.rows
    assert plan_of(laid.chart) == plan_of(hand)
    assert write_rows(laid.chart) == write_rows(hand)


def test_a_rib_is_so_many_stitches_and_rows(tmp_path: Path) -> None:
    text = "pieces:\n  rib: {colour: B, cast-on: 88, rows: 8, stitch: 'k2, p2 rib', worked: round, times: 2}\n"
    work = pattern(tmp_path, text + "  front: {chart: f.chart.yaml}\n", f=chart_file("BWR BBB"))
    laid = work.laid(work.pattern.pieces["rib"], "one size")
    assert laid is not None
    assert (laid.chart.grid.width, laid.chart.grid.height, laid.chart.worked) == (88, 8, "round")
    assert not [r for r in check_paths([str(tmp_path)]).results if r.rule.startswith(("file/", "engine/", "size/"))]


@pytest.mark.parametrize(
    ("piece", "told"),
    [
        ("{rows: 3}", "back has neither a chart nor a colour; expected `chart`, or `colour`, `cast-on` and `rows`"),
        ("{colour: B, rows: 3}", "back has no chart and no 'cast-on'; expected its number"),
        ("{colour: B, chart: f.chart.yaml}", "back has a chart and a colour; the colour around a chart is `plain`"),
        (
            "{chart: f.chart.yaml, shaping: {rows: {left: -1}}}",
            "'rows' in shaping of back: expected rows such as 12 or 31-59/2, with left or right",
        ),
        (
            "{chart: f.chart.yaml, shaping: {s: {4-2: {left: -1}}, l: {2: {left: -1}}}}",
            "'4-2' in shaping of back: expected rows such as 12 or 31-59/2, with left or right",
        ),
        ("{chart: f.chart.yaml, shaping: {xl: {4: {left: -1}}}}", "the pattern has no size 'xl'"),
    ],
)
def test_what_is_wrong_with_a_piece(piece: str, told: str) -> None:
    text = f"lintarsia-pattern: 1\ntitle: A\nsizes: [s, l]\npieces:\n  back: {piece}\n"
    found = [finding.message for _, finding in read_pattern("a.pattern.yaml", text.encode()).problems]
    assert any(message.startswith(told) for message in found), found


def test_more_sizes_than_a_pattern_may_have() -> None:
    sizes = ", ".join(f"s{number}" for number in range(51))
    text = f"lintarsia-pattern: 1\ntitle: A\nsizes: [{sizes}]\npieces: {{back: {{chart: f.chart.yaml}}}}\n"
    (told,) = [finding.message for _, finding in read_pattern("a.pattern.yaml", text.encode()).problems]
    assert told == "sizes: found a list of 51; expected a list of size names, at most 50"


def test_pieces_that_go_on_from_one_another(tmp_path: Path) -> None:
    text = """\
pieces:
  brim: {colour: B, cast-on: 8, rows: 4, continues: crown}
  crown: {chart: f.chart.yaml, continues: brim}
  tab: {colour: B, cast-on: 3, rows: 4, continues: brimm}
  tie: {colour: B, cast-on: 3, rows: 4, continues: tie}
"""
    found = [
        f.message
        for _, f in read_pattern("a.pattern.yaml", f"lintarsia-pattern: 1\ntitle: A\n{text}".encode()).problems
    ]
    assert found == [
        "brim goes on from crown, which goes on from it; expected one that is cast on",
        "crown goes on from brim, which goes on from it; expected one that is cast on",
        "'brimm' is not a piece of the pattern; did you mean 'brim'?",
        "tie goes on from itself; expected another piece, or no such key where it is cast on",
    ]


def test_a_colour_of_the_patterns_own(tmp_path: Path) -> None:
    """Moss is in no chart's key: gauge and the rest are the first chart's, yarn and ball are the pattern's."""
    text = """\
yarns: {moss: {name: Fjord in moss, length: 5 m, balls: 9}}
colours: {M: {name: Moss, shade: "#4c5f45", yarn: moss}}
pieces:
  front: {chart: f.chart.yaml}
  back: {colour: M, cast-on: 8, rows: 4}
"""
    work = pattern(tmp_path, text, f=chart_file("BWR BBB"))
    need = needs_of(work, "one size")["moss"]
    assert (need.name, need.pieces, need.to_buy) == ("Fjord in moss", ("back",), 1)
    assert need.metres == pytest.approx((32 * 4.1 * 5 + 2 * 8 * 3 * 5 + 3 * 150) / 1000)
    found = {r.rule for r in check_paths([str(tmp_path)]).results}
    assert "yarn/too-much" in found
    assert not found & {"yarn/unused", "file/schema", "size/repeat-fit"}


def test_a_colour_that_no_chart_has(tmp_path: Path) -> None:
    text = "pieces:\n  back: {colour: Q, cast-on: 8, rows: 4}\n  front: {chart: f.chart.yaml}\n"
    pattern(tmp_path, text, f=chart_file("BWR BBB"))
    messages = [r.message for r in check_paths([str(tmp_path)]).results if r.rule == "size/repeat-fit"]
    assert messages == ["back: no chart of the pattern has the colour 'Q' in its key"]


def test_a_size_whose_shaping_is_forgotten(tmp_path: Path) -> None:
    text = "sizes: [s, l]\npieces:\n  back: {chart: f.chart.yaml, shaping: {s: {2: {left: -1}}}}\n"
    pattern(tmp_path, text, f=chart_file("BWR BBB"))
    messages = [r.message for r in check_paths([str(tmp_path)]).results if r.rule == "size/unstated"]
    assert messages == ["back: shaping is stated for s and not for l"]
