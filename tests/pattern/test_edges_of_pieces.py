"""Pieces where two things meet: a motif and the plain knitting beside it, an opening that closes again, a first row
that lies on another piece's stitches; each drawn or worked out by hand."""

from pathlib import Path

import pytest
from test_pieces_by_hand import by_hand, chart_file, pattern

from lintarsia.chart.grid import RowNumber
from lintarsia.chart.shaping import Edge
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.allsizes import all_sizes
from lintarsia.pattern.aroundpieces import around
from lintarsia.pattern.choosing import PieceInSize, choose
from lintarsia.pattern.clearance import Clearance, clearance_of
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.edgewords import begins, ends
from lintarsia.pattern.inwords import pages_of
from lintarsia.pattern.nested import nested_page
from lintarsia.pattern.overdrawn import Overdrawn, overdrawn
from lintarsia.pattern.sizes import size_sheets
from lintarsia.pattern.stitch import pulls_in
from lintarsia.pattern.work import PatternWork
from lintarsia.telling.terms import Terms
from lintarsia.written.style import Style


def one(work: PatternWork, piece: str, size: str | None = None) -> PieceInSize:
    return choose(work, piece, size)[0]


def top_first(made: PieceInSize) -> str:
    return " ".join(reversed(made.chart.grid.rows))


def test_beside_a_motif_its_empty_cells_are_plain_and_its_shaping_is_none(tmp_path: Path) -> None:
    """The motif is drawn with a decrease at its left; on a wider piece it is just a picture."""
    motif = chart_file(".WR BWR", "shaping:\n  2: {left: -1}\n")
    work = pattern(tmp_path, "pieces:\n  f: {chart: f.chart.yaml, plain: B, cast-on: 6, at: {stitch: 2}}\n", f=motif)
    made = one(work, "f")
    assert top_first(made) == "BBBWRB BBBWRB"
    assert made.chart.shaping == {}
    alone = pattern(tmp_path, "pieces:\n  f: {chart: f.chart.yaml}\n", f=motif)
    assert top_first(one(alone, "f")) == ".WR BWR"
    assert list(one(alone, "f").chart.shaping) == [2]


def test_how_near_a_motif_comes_to_an_edge(tmp_path: Path) -> None:
    """W on stitches 2 and 3 of 7 and rows 3 and 4 of 9: one stitch, 5 mm, from the right. In the chart its own blue is
    plain knitting; one of its stitches is cut where row 4 has lost two at the right, and
    the one below has nothing above it."""
    text = "pieces:\n  f: {chart: f.chart.yaml, plain: B, cast-on: 7, rows: 9, at: {stitch: 2, row: 3}}\n"
    work = pattern(tmp_path, text, f=chart_file("BWW BBW"))
    assert clearance_of(one(work, "f").laid, "B") == Clearance(0, 0, 5.0, RowNumber(3))
    shaped = text.replace("row: 3}", "row: 3}, shaping: {4: {right: -2}}")
    work = pattern(tmp_path, shaped, f=chart_file("BWW BBW"))
    assert clearance_of(one(work, "f").laid, "B") == Clearance(1, 4, 0.0, RowNumber(3))
    work = pattern(tmp_path, text, f=chart_file("BBB BBB"))
    assert clearance_of(one(work, "f").laid, "B") is None
    (sheet,) = size_sheets(work)
    assert sheet.pieces[0].motif.endswith("2 rows below, 5 above")


def test_openings_that_ask_for_too_much(tmp_path: Path) -> None:
    """Eleven stitches, parted in the middle of row 3 up to row 5: four at the right and four at the left of three."""
    text = """\
pieces:
  f:
    chart: f.chart.yaml
    plain: B
    cast-on: 11
    rows: 9
    at: {stitch: 2, row: 1}
    shaping: SHAPING
    divide: {3: {by: bind-off, stitches: STITCHES, sides: right-first, to: 5}}
"""

    def told(shaping: str, stitches: int = 3) -> list[Overdrawn]:
        work = pattern(
            tmp_path, text.replace("SHAPING", shaping).replace("STITCHES", str(stitches)), f=chart_file("WR")
        )
        piece = work.pattern.pieces["f"]
        size = "one size"
        return list(overdrawn(piece.shaping.get(size, {}), piece.divide[size], 11, 9))

    assert told("{4: {right: -4}}") == []
    assert told("{4: {right: -5}}") == [Overdrawn(4, 4, 5, (Edge.RIGHT,), "right")]
    assert told("{5: {left: -3, neck-left: -2}}") == [Overdrawn(5, 4, 5, (Edge.NECK_LEFT, Edge.LEFT), "left")]
    # Above row 5 there is one piece of work again.
    assert told("{6: {right: -5}}") == []
    assert told("{6: {right: -12}}") == [Overdrawn(6, 11, 12, (Edge.RIGHT,))]
    # The second fault of one side would be counted from what the first has left.
    assert told("{4: {right: -5}, 5: {right: -5}}") == [Overdrawn(4, 4, 5, (Edge.RIGHT,), "right")]
    assert told("{2: {left: 1}}", 12) == []
    assert told("{2: {left: -1}}", 11) == [Overdrawn(3, 10, 11)]


def test_stitch_holders_are_needed_where_something_is_held(tmp_path: Path) -> None:
    held = chart_file("BBBB.. BBBBWR BBBBBB", "shaping:\n  3: {right: {hold: 2}}\n")
    bound = chart_file("BBBB.. BBBBWR BBBBBB", "shaping:\n  3: {right: -2}\n")
    found = []
    for chart in (held, bound):
        work = pattern(tmp_path, "pieces:\n  f: {chart: f.chart.yaml}\n", f=chart)
        chosen = choose(work, None, None)
        made = around(work, chosen, pages_of(work, chosen, "american"))
        materials = next(part for part in made.before if part.title == "Materials")
        found.append([line for line in materials.lines if line[0] == "Stitch holders"])
    assert found == [[("Stitch holders", "or waste yarn")], []]


def test_three_sizes_have_two_numbers_in_the_brackets(tmp_path: Path) -> None:
    text = """\
sizes: [s, m, l]
notions: {buttons: {s: 3, m: 4, l: 6}}
pieces:
  f: {chart: f.chart.yaml, repeats: {s: 1, m: 20, l: 80}}
"""
    work = pattern(tmp_path, text, f=chart_file("BB BB"))
    chosen = choose(work, None, None)
    made = around(work, chosen, pages_of(work, chosen, "american"))
    (materials,) = (part.lines for part in made.before if part.title == "Materials")
    amounts = dict(materials)
    # Two, forty and 160 stitches of two rows: 20.5 mm each, 30 mm for one cast on and bound off, three tails.
    assert amounts["Fjord DK"] == "1 (1, 2) balls of 10 m (65 cm (3.6 m, 13.0 m) with what is to spare)"
    assert amounts["Buttons"] == "3 (4, 6)"


@pytest.mark.parametrize(("row", "sides"), [(1, ["RS", "WS"]), (2, ["WS", "RS"])])
def test_the_side_of_a_motifs_rows_is_that_of_the_piece(tmp_path: Path, row: int, sides: list[str]) -> None:
    text = f"""\
sizes: [s, l]
pieces:
  f:
    {{chart: f.chart.yaml, plain: B, cast-on: {{s: 5, l: 8}}, rows: {{s: 4, l: 7}},
     at: {{row: {{s: {row}, l: {row + 2}}}}}}}
"""
    work = pattern(tmp_path, text, f=chart_file("BWW RBB"))
    sizes = choose(work, "f", None)
    own = work.chart(sizes[0].piece, "s")
    assert own is not None
    page = nested_page(own, sizes, "F", Style(merge=False))
    assert [str(line.side) for line in page.rows] == sides
    assert [line.words[0] for line in page.rows] == ["k" if side == "RS" else "p" for side in sides]
    plain = [line for line in page.reading if line.startswith(("Work ", "After"))]
    below, above = (f"{row - 1} ({row + 1})", f"{3 - row} ({4 - row})")
    assert plain == [
        f"Work {below} rows in B, then the rows of the chart by its own numbers.",
        f"After the chart work {above} rows in B.",
    ]


@pytest.mark.parametrize(
    ("size", "words"),
    [
        ("s", "Begin on the 5 sts of hem, increasing 2 sts evenly: 7 sts."),
        ("m", "Begin on the 7 sts of hem."),
        ("l", "Begin on the 9 sts of hem, decreasing 1 st: 8 sts."),
    ],
)
def test_how_a_piece_is_begun_on_another(tmp_path: Path, size: str, words: str) -> None:
    work = pattern(tmp_path, BODY, f=chart_file("WR"))
    assert begins(work, [one(work, "body", size)]) == words


BODY = """\
sizes: [s, m, l]
pieces:
  hem: {colour: B, cast-on: {s: 5, m: 7, l: 9}, rows: 3}
  body: {colour: B, cast-on: {s: 7, m: 7, l: 8}, rows: 4, continues: hem}
  flap: {colour: B, cast-on: {s: 4, m: 4, l: 6}, rows: 4, picked-up: true, ends: drawn-in}
  strap: {chart: f.chart.yaml, ends: live}
"""


def test_how_pieces_are_begun_and_ended_in_all_sizes(tmp_path: Path) -> None:
    work = pattern(tmp_path, BODY, f=chart_file("WR"))
    sizes = {name: [p for p in choose(work, name, None) if p.size != "m"] for name in work.pattern.pieces}
    assert begins(work, sizes["hem"]) == "Cast on 5 (9) sts in B."
    assert begins(work, sizes["flap"]) == "Pick up and knit 4 (6) sts."
    assert begins(work, sizes["strap"]) == "Cast on 2 sts."
    assert begins(work, choose(work, "body", None)[:2]) == (
        "Begin on the 5 (7) sts of hem, increasing 2 (0) sts evenly: 7 sts."
    )
    # One size grows and another one shrinks: neither word would be true of both.
    assert begins(work, sizes["body"]) == "Begin on the 5 (9) sts of hem, and work them evenly into 7 (8) sts."
    assert ends(work, sizes["hem"], Terms.AMERICAN) == "After the last row, leave the sts on the needle for body."
    assert ends(work, sizes["body"], Terms.AMERICAN) == "After the last row, bind off."
    assert ends(work, sizes["body"], Terms.BRITISH) == "After the last row, cast off."
    drawn = "After the last row, cut the yarn, draw it through the 4 (6) sts that are left and fasten it off."
    assert ends(work, sizes["flap"], Terms.AMERICAN) == drawn
    assert ends(work, sizes["strap"], Terms.AMERICAN) == "After the last row, leave the sts live."


@pytest.mark.parametrize(
    "seam",
    [
        "{join: [f left, f right], times: 2}",
        "{join: [f left, f right], yarn: dk}",
        "{join: [f left, f right], rows: [1, 2]}",
    ],
)
def test_how_a_seam_is_sewn_is_part_of_the_pattern(tmp_path: Path, seam: str) -> None:
    text = "pieces:\n  f: {chart: f.chart.yaml}\nseams:\n  - SEAM\n"
    plain = pattern(tmp_path, text.replace("SEAM", "{join: [f left, f right]}"), f=chart_file("WR WB"))
    once = pattern(tmp_path, text.replace("SEAM", "{join: [f left, f right], times: 1}"), f=chart_file("WR WB"))
    other = pattern(tmp_path, text.replace("SEAM", seam), f=chart_file("WR WB"))
    assert pattern_fingerprint(plain) == pattern_fingerprint(once) != pattern_fingerprint(other)


def test_a_measure_of_the_swatch_the_tools_and_the_words_count(tmp_path: Path) -> None:
    text = "pieces:\n  f: {chart: f.chart.yaml}\n"
    more = [
        "swatch: 10 cm\n",
        "tools: {hook: 3 mm}\n",
        "notions: {zip: one}\n",
        "about: A mat.\n",
        "notes: [Wash it.]\n",
    ]
    found = [pattern_fingerprint(pattern(tmp_path, text + said, f=chart_file("WR WB"))) for said in ("", *more)]
    assert len(set(found)) == 6


def test_a_repeat_whose_shaping_is_worked_as_often_as_it_is(tmp_path: Path) -> None:
    """A wedge that loses one stitch is worked three times: three decreases spread over the round, at no edge."""
    text = "pieces:\n  f: {chart: f.chart.yaml, repeats: 3}\n"
    said = "worked: round\ntechnique: stranded\nshaping: {2: {left: -1}}\n"
    made = one(pattern(tmp_path, text, f=chart_file(".WB RWB", said)), "f")
    assert (made.chart.shaping[2].net, [(str(c.kind), c.stitches, c.edge) for c in made.chart.shaping[2].changes]) == (
        -3,
        [("decrease", 3, None)],
    )
    grow = "worked: round\ntechnique: stranded\nshaping: {2: {left: 2}}\n"
    made = one(pattern(tmp_path, text, f=chart_file("WWBB ..RB", grow)), "f")
    assert [(str(c.kind), c.stitches) for c in made.chart.shaping[2].changes] == [("increase", 6)]
    once = one(pattern(tmp_path, text.replace(", repeats: 3", ""), f=chart_file(".WB RWB", said)), "f")
    assert once.chart.shaping == by_hand(".WB RWB", said).shaping


def test_why_a_piece_cannot_be_laid_out(tmp_path: Path) -> None:
    text = """\
sizes: [s, l]
pieces:
  f: {chart: {s: f.chart.yaml}, plain: B}
  q: {colour: Q, cast-on: 9, rows: 4}
  b: {colour: B, cast-on: {s: 9}, rows: 4}
  big: {chart: f.chart.yaml, repeats: 2000, row-repeats: 2000}
  gone: {chart: g.chart.yaml}
"""
    work = pattern(tmp_path, text, f=chart_file("WR"))
    told = {}
    for piece, size in (("f", "l"), ("q", "s"), ("b", "l"), ("big", "s"), ("gone", "s")):
        with pytest.raises(Trouble) as caught:
            choose(work, piece, size)
        told[piece] = str(caught.value)
    assert told == {
        "f": "f, l cannot be laid out: it has no chart there",
        "q": "q, s cannot be laid out: no chart of the pattern has its colour, Q, in the key",
        "b": "b, l cannot be laid out: its stitches or rows are not said there",
        "big": "big, s cannot be laid out: it comes to more than 500,000 stitches, the max-stitches of the settings",
        "gone": "gone, s cannot be laid out: there is no chart 'g.chart.yaml'",
    }


@pytest.mark.parametrize(
    ("stitch", "words"),
    [
        (1, "1.5 stitches from the middle: 0 stitches at its right, 3 at its left"),
        (2, "0.5 stitches from the middle: 1 stitch at its right, 2 at its left"),
    ],
)
def test_how_far_a_motif_lies_from_the_middle(tmp_path: Path, stitch: int, words: str) -> None:
    text = f"pieces:\n  f: {{chart: f.chart.yaml, plain: B, cast-on: 5, at: {{stitch: {stitch}}}}}\n"
    (sheet,) = size_sheets(pattern(tmp_path, text, f=chart_file("WR")))
    assert sheet.pieces[0].motif.startswith(words)


def test_a_motif_a_stitch_from_the_middle_and_in_it(tmp_path: Path) -> None:
    text = "pieces:\n  f: {chart: f.chart.yaml, plain: B, cast-on: 6, at: {stitch: 2}}\n"
    (sheet,) = size_sheets(pattern(tmp_path, text, f=chart_file("WR")))
    assert sheet.pieces[0].motif.startswith(
        "1 stitch from the middle: 1 stitch at its right, 3 at its left, 0 rows below,"
    )
    (sheet,) = size_sheets(pattern(tmp_path, text.replace("stitch: 2", "stitch: 3"), f=chart_file("WR")))
    assert sheet.pieces[0].motif.startswith(
        "in the middle: 2 stitches at its right, 2 at its left, 0 rows below, 0 above,"
    )


def test_what_a_pattern_does_not_knit(tmp_path: Path) -> None:
    pieces = "  f: {chart: f.chart.yaml, times: {s: 1, l: 0}}\n  g: {chart: f.chart.yaml, times: 0}\n"
    text = f"sizes: [s, l]\npieces:\n{pieces}"
    work = pattern(tmp_path, text, f=chart_file("WR"))
    for piece, size, what in (("f", "l", "f in l"), ("g", None, "g"), (None, "l", "any piece")):
        with pytest.raises(Trouble, match=rf"^the pattern does not knit {what}$"):
            choose(work, piece, size)
    assert [one.name for one in choose(work, None, None)] == ["f, s"]


@pytest.mark.parametrize(
    ("words", "pulls"),
    [
        ("k2, p1 rib", True), ("2 × 1", True), ("Fisherman's RIB", True), ("seed stitch", True), ("Moss", True),
        ("garter stitch", False), ("stocking stitch", False), ("describe", False), ("k0, p1", False),
    ],
)  # fmt: skip
def test_which_stitches_take_more_yarn_between_knit_and_purl(words: str, pulls: bool) -> None:
    """Common practice: ribs and moss stitch bring the yarn to and fro within a row, garter stitch does not."""
    assert pulls_in(words) is pulls


def test_a_plain_piece_of_all_sizes_begins_as_the_piece_does(tmp_path: Path) -> None:
    pieces = "  b: {colour: B, cast-on: {s: 4, l: 7}, rows: {s: 3, l: 4}}\n  f: {chart: f.chart.yaml}\n"
    text = f"sizes: [s, l]\npieces:\n{pieces}"
    work = pattern(tmp_path, text, f=chart_file("WR", "first-row: WS\n"))
    whole = all_sizes(choose(work, "b", None), "B").chart
    assert str(one(work, "b").chart.side(1)) == "WS"
    assert str(whole.side(1)) == "WS"
    assert (whole.grid.width, whole.grid.height) == (7, 4)
