"""A piece in a size is a chart: each against the same piece laid out by hand, stitch by stitch, as a chart file.

Motifs lie off the middle, so that a swap of left and right would show.
"""

import json
from pathlib import Path
from typing import Any

import pytest
from pattern_files import GAUGE, write_pattern

from lintarsia.chart import Chart
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.planjson import pattern_plan_json
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.json import plan_document
from lintarsia.reading import read_chart
from lintarsia.settings import Settings
from lintarsia.written import write_rows

HEAD = f"""\
lintarsia: 1
title: Field
gauge: {GAUGE}
yarns:
  dk: {{name: Fjord DK, length: 10 m, mass: 5 g}}
colours:
  B: {{name: Dusk blue, shade: "#27406b", yarn: dk}}
  W: {{name: Bone, shade: "#efe9dc", yarn: dk}}
  R: {{name: Rust, shade: "#a04020", yarn: dk}}
"""


def chart_file(rows: str, extra: str = "") -> str:
    """Rows are separated by spaces, the top one first."""
    return HEAD + extra + "chart: |\n" + "".join(f"  {row}\n" for row in rows.split())


def by_hand(rows: str, extra: str = "") -> Chart:
    reading = read_chart("hand.chart.yaml", chart_file(rows, extra).encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def pattern(folder: Path, text: str, **charts: str) -> PatternWork:
    reading = read_pattern(str(write_pattern(folder, text, **charts)))
    assert reading.problems == ()
    assert reading.pattern is not None
    return work_on(reading.pattern, Settings(root=str(folder)))


def plan_of(chart: Chart) -> dict[str, Any]:
    """The plan without what names the chart, or has its name in it."""
    document = plan_document(chart, make_plan(chart))
    return {key: value for key, value in document.items() if key not in ("chart", "title", "fingerprint")}


def same(work: PatternWork, size: str, hand: Chart, piece: str = "front") -> None:
    laid = work.laid(work.pattern.pieces[piece], size)
    assert laid is not None
    assert laid.chart.grid.rows == hand.grid.rows
    assert plan_of(laid.chart) == plan_of(hand)
    assert write_rows(laid.chart) == write_rows(hand)


def test_a_motif_on_plain_knitting_in_two_sizes(tmp_path: Path) -> None:
    text = """\
sizes: [small, large]
pieces:
  front:
    {chart: motif.chart.yaml, plain: B, cast-on: {small: 3, large: 8}, rows: {small: 2, large: 6},
     at: {stitch: {small: 1, large: 3}, row: {small: 1, large: 3}}}
"""
    sewn = "duplicate-stitch:\n  - {colour: R, row: 2, stitches: [1, 2]}\n"
    work = pattern(tmp_path, text, motif=chart_file("WWB BWW", sewn))
    same(work, "small", by_hand("WWB BWW", sewn))
    moved = "duplicate-stitch:\n  - {colour: R, row: 4, stitches: [3, 4]}\n"
    same(work, "large", by_hand("BBBBBBBB BBBBBBBB BBBWWBBB BBBBWWBB BBBBBBBB BBBBBBBB", moved))


def test_repeats_across_and_up_with_edges_of_their_own(tmp_path: Path) -> None:
    text = """\
sizes: [s, m]
pieces:
  front: {chart: hat.chart.yaml, cast-on: {s: 9, m: 12}, rows: {s: 3, m: 5}}
"""
    box = "worked: round\ntechnique: stranded\nrepeat: {stitches: [3, 5], rows: [1, 2]}\n"
    sewn = "duplicate-stitch:\n  - {colour: R, row: 2, stitches: [4, 5]}\n"
    work = pattern(tmp_path, text, hat=chart_file("BBBBBR BWWBWR BBWBBR", box + sewn))
    round_ = "worked: round\ntechnique: stranded\n"
    twice = "duplicate-stitch:\n  - {colour: R, row: 2, stitches: [4, 5]}\n  - {colour: R, row: 2, stitches: [7, 8]}\n"
    same(work, "s", by_hand("BBBBBBBBR BWWBWWBWR BBWBBWBBR", round_ + twice))
    places = [(row, stitch) for row in (2, 4) for stitch in (4, 7, 10)]
    often = "".join(f"  - {{colour: R, row: {row}, stitches: [{first}, {first + 1}]}}\n" for row, first in places)
    rows = "BBBBBBBBBBBR BWWBWWBWWBWR BBWBBWBBWBBR BWWBWWBWWBWR BBWBBWBBWBBR"
    same(work, "m", by_hand(rows, f"{round_}duplicate-stitch:\n{often}"))


def test_shaping_and_openings_go_with_their_rows(tmp_path: Path) -> None:
    """Two plain rows more below: armhole and neck lie two rows higher."""
    rows = ".BB..BBB .BB..BBB .BBBWBBB .BBBBBBB BBBBBBBB"
    said = "shaping:\n  2: {left: {bind-off: 1}}\ndivide:\n  4: {by: hold, sides: right-first}\n"
    hand = "shaping:\n  4: {left: {bind-off: 1}}\ndivide:\n  6: {by: hold, sides: right-first}\n"
    text = "pieces:\n  front: {chart: body.chart.yaml, plain: B, rows: 7, at: {row: 3}}\n"
    work = pattern(tmp_path, text, body=chart_file(rows, said))
    same(work, "one size", by_hand(f"{rows} BBBBBBBB BBBBBBBB", hand))


def test_decreases_within_a_repeat_are_spread_over_the_round(tmp_path: Path) -> None:
    """A crown of three wedges: each loses a stitch in round 2, so the round loses three, which nobody binds off."""
    extra = "worked: round\nshaping:\n  2: -1\n"
    work = pattern(tmp_path, "pieces:\n  front: {chart: c.chart.yaml, repeats: 3}\n", c=chart_file("BWB. BWBB", extra))
    laid = work.laid(work.pattern.pieces["front"], "one size")
    assert laid is not None
    assert laid.chart.grid.rows == ("BWBBBWBBBWBB", "BWB.BWB.BWB.")
    made = laid.chart.shaping[2]
    assert (made.net, [(c.kind, c.stitches, c.edge) for c in made.changes]) == (-3, [("decrease", 3, None)])
    plan = make_plan(laid.chart)
    assert [edge.stitches for edge in plan.bind_off] == [2, 1, 2, 1, 2, 1] or sum(
        e.stitches for e in plan.bind_off
    ) == 9


def test_a_mirrored_piece_is_the_mirror_image_and_begun_where_it_can_be_bound_off(tmp_path: Path) -> None:
    """Row 3 (RS) starts at the right edge, where the right front is bound off; in the mirror it starts at the left."""
    rows, mirror = "BBW... BBW... BBWBBB BBWBBB", "...WBB ...WBB BBBWBB BBBWBB"
    text = "pieces:\n  right: {chart: f.chart.yaml}\n  left: {chart: f.chart.yaml, mirror-of: right}\n"
    work = pattern(tmp_path, text, f=chart_file(rows, "shaping:\n  3: {right: -3}\n"))
    same(work, "one size", by_hand(rows, "shaping:\n  3: {right: -3}\n"), "right")
    same(work, "one size", by_hand(mirror, "first-row: WS\nshaping:\n  3: {left: -3}\n"), "left")
    plain = pattern(tmp_path, text, f=chart_file("BBW WBR"))
    same(plain, "one size", by_hand("WBB RBW"), "left")


def test_what_a_size_takes_is_the_sum_of_its_plans(tmp_path: Path) -> None:
    text = """\
sizes: [small, large]
pieces:
  front: {chart: m.chart.yaml, plain: B, cast-on: {small: 3, large: 9}, rows: {small: 2, large: 7}}
  sleeve: {chart: m.chart.yaml, times: {small: 2, large: 3}}
"""
    work = pattern(tmp_path, text, m=chart_file("WWB BWR"))
    answer = json.loads(pattern_plan_json(work, choose(work, None, None)))
    told = [[p[key] for key in ("piece", "size", "times", "stitches", "rows")] for p in answer["pieces"]]
    assert told[:2] == [["front", "small", 1, 3, 2], ["sleeve", "small", 2, 3, 2]]
    assert told[2:] == [["front", "large", 1, 9, 7], ["sleeve", "large", 3, 3, 2]]
    for size in ("small", "large"):
        metres = sum(p["times"] * p["plan"]["totals"]["metres"] for p in answer["pieces"] if p["size"] == size)
        assert answer["yarns"]["dk"][size]["metres"] == pytest.approx(metres, abs=0.03)
