"""What a pattern takes of each yarn, by what it is for: against sums of its plans and lengths worked out by hand.

Gauge 20 and 30 to 10 cm, so a stitch is 5 mm wide and a row 10/30 cm high. A stitch takes 4.1 times its width (Munden,
wet-relaxed, as TRADE handbooks print it), one cast on or bound off 3 times, a tail is 15 cm: the house's settings.
"""

from pathlib import Path

import pytest
from test_pieces_by_hand import by_hand, chart_file, pattern

from lintarsia.pattern.buying import For, needs_of
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.plantext import buying_list
from lintarsia.planning.planner import make_plan

WIDE, HIGH, TAIL = 5.0, 100 / 30, 150.0
HAT = """\
sizes: [s, l]
swatch: 10 cm
pieces:
  brim: {colour: B, stitch: "k2, p1 rib", worked: round, cast-on: {s: 12, l: 18}, rows: {s: 3, l: 4}}
  body: {chart: f.chart.yaml, continues: brim, cast-on: {s: 15, l: 18}, ends: live}
  tab: {colour: B, cast-on: 3, rows: 5, picked-up: true, times: 2}
seams:
  - {join: [tab left, tab right], times: 2}
  - {join: [tab top, tab bottom], rows: [2, 3]}
"""
ROUNDS = "BBWBBWBBWBBWBBW BBWBBWBBWBBWBBW"
BODY = "worked: round\ntechnique: stranded\nrepeat: {stitches: [1, 3], rows: [1, 2]}\n"


def test_every_part_by_itself(tmp_path: Path) -> None:
    work = pattern(tmp_path, HAT, f=chart_file("BBW BBW", BODY))
    need = needs_of(work, "s")["dk"]
    found = {(part.what, part.piece): part.metres * 1000 for part in need.parts}
    loop = 4.1 * WIDE
    assert found[For.PIECE, "brim"] == pytest.approx(36 * loop * 1.1 + 2 * TAIL)
    assert found[For.CAST_ON, "brim"] == pytest.approx(12 * 3 * WIDE + TAIL)
    assert (For.BIND_OFF, "brim") not in found
    assert {what for what, piece in found if piece == "body"} == {For.PIECE}
    assert found[For.PIECE, "tab"] == pytest.approx(2 * (15 * loop + 2 * TAIL))
    assert found[For.BIND_OFF, "tab"] == pytest.approx(2 * 3 * 3 * WIDE)
    assert (For.CAST_ON, "tab") not in found
    assert found[For.SEAMS, ""] == pytest.approx(2 * (5 * HIGH * 3 + 2 * TAIL) + 3 * WIDE * 3 + 2 * TAIL)
    body = make_plan(by_hand(ROUNDS, "worked: round\ntechnique: stranded\n")).totals
    squares = 100 * 100 / (WIDE * HIGH)
    knitted = found[For.PIECE, "body"]
    tails = 2 * 2 * TAIL  # both of its colours are of one yarn, and the swatch has two ends of it
    assert found[For.SWATCH, ""] == pytest.approx((knitted - tails) * squares / body.stitches + 2 * TAIL)
    assert need.metres + need.besides == pytest.approx(sum(found.values()) / 1000)


def test_metres_are_the_sum_of_the_plans(tmp_path: Path) -> None:
    work = pattern(tmp_path, HAT, f=chart_file("BBW BBW", BODY))
    for size in ("s", "l"):
        chosen = choose(work, None, size)
        total = sum(one.times * work.plan(one.piece, size).totals.metres for one in chosen)
        assert needs_of(work, size)["dk"].metres == pytest.approx(total)


def test_a_piece_that_goes_on_from_another_is_the_chart_without_a_cast_on(tmp_path: Path) -> None:
    work = pattern(tmp_path, HAT, f=chart_file("BBW BBW", BODY))
    hand = by_hand(ROUNDS, "worked: round\ntechnique: stranded\n")
    body = work.plan(work.pattern.pieces["body"], "s")
    cut = (15 * 3 * 2 * WIDE + 2 * TAIL) / 1000  # cast on, bound off, and what each of its two yarns has to spare
    assert body.totals.metres == pytest.approx(make_plan(hand).totals.metres - cut)
    assert (body.cast_on, body.bind_off) == ((), ())


def test_the_list_names_the_house_values(tmp_path: Path) -> None:
    work = pattern(tmp_path, HAT, f=chart_file("BBW BBW", BODY))
    told = "\n".join(buying_list(work, "l"))
    for line in ("brim, k2, p1 rib", "brim, cast-on", "2 × tab, bind-off", "the seams", "a swatch of 10 cm square"):
        assert f"\n    {line} " in told
    assert "a stitch of rib 1.1 × a plain one, 10% for slips." in " ".join(told.split())


@pytest.mark.parametrize(
    ("stitch", "rows"),
    [
        ("k2, p1 rib", ("pkkpkk", "pkkpkk", "pkkpkk")),
        ("1 x 1 rib", ("pkpkpk", "pkpkpk", "pkpkpk")),
        ("moss stitch", ("pkpkpk", "kpkpkp", "pkpkpk")),
        ("garter stitch", ("gggggg", "gggggg", "gggggg")),
        ("stocking stitch", None),
    ],
)
def test_a_stitch_that_is_known_is_drawn(tmp_path: Path, stitch: str, rows: tuple[str, ...] | None) -> None:
    text = f"pieces:\n  rib: {{colour: B, cast-on: 6, rows: 3, stitch: '{stitch}'}}\n  f: {{chart: f.chart.yaml}}\n"
    work = pattern(tmp_path, text, f=chart_file("BW"))
    laid = work.laid(work.pattern.pieces["rib"], "one size")
    assert laid is not None
    assert (laid.chart.texture and laid.chart.texture.rows) == rows
