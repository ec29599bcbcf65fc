"""Every key of the format arrives in the Chart, and a chart that says little gets the format's defaults."""

import pickle

from reading_charts import EVERY_KEY, PLAIN, read

from lintarsia.chart import (
    Chart,
    Colour,
    DuplicateStitch,
    FloatGauge,
    Gauge,
    Limits,
    Repeat,
    Shaping,
    Side,
    StatedSupplies,
    StatedSupply,
    Suppression,
    Symmetry,
    Technique,
    Wearer,
    Worked,
    Yarn,
)
from lintarsia.chart.grid import NO_STITCH
from lintarsia.chart.measure import Length, Mass, StitchCount


def chart(text: str) -> Chart:
    reading = read(text)
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def test_every_key_arrives() -> None:
    c = chart(EVERY_KEY)
    assert (c.path, c.title) == ("pebbles.chart.yaml", "Every key")
    assert (c.worked, c.first_row, c.technique) == (Worked.TURNED, Side.WS, Technique.MIXED)
    assert c.gauge == Gauge(
        22.5, 30, Length(4, "in"), Length(4, "mm"), Length(18.5, "mm"), FloatGauge(stitches=23, rows=26)
    )
    assert c.yarns == {
        "shore-dk": Yarn("shore-dk", "Shore DK", 3, Length(120, "m"), Mass(50, "g"), 2, "wool"),
        "odds": Yarn("odds"),
    }
    assert c.colours == {"A": Colour("A", "Shore", "#c8b89a", "shore-dk"), "B": Colour("B", "Pebble", "#5a5f66")}
    assert c.supplies == {
        "A": StatedSupplies(2),
        "B": StatedSupplies(2, (StatedSupply("butterfly", Length(6, "m")), StatedSupply())),
    }
    assert c.limits == Limits(9, StitchCount(5), StitchCount(4), 0, 2)
    assert c.repeat == Repeat((2, 5), (1, 2))
    assert c.shaping == {2: Shaping(-2), 3: Shaping(0, left=-1, right=1)}
    assert c.wearer is Wearer.CHILD
    assert c.symmetry == (Symmetry.LEFT_RIGHT, Symmetry.HALF_TURN)
    assert c.duplicate == (DuplicateStitch("B", 3, (6, 6)),)
    assert c.written == {1: "k2 A, k2 A", 2: "p6"}
    assert c.suppressions == (
        Suppression("area/single-stitch", "the eye", 2, (2, 2)),
        Suppression("colour/unused", "kept for the border"),
    )
    assert c.assumed == frozenset()


def test_the_lowest_line_is_row_1_and_the_rightmost_stitch_is_1() -> None:
    grid = chart(EVERY_KEY).grid
    assert grid.rows == ("AA..AA", "ABBABA", "AAAAAA")
    assert grid.cells[0].tolist() == [0, 0, NO_STITCH, NO_STITCH, 0, 0]
    assert grid.text(2, 1, 2) == "BA"


def test_what_is_unsaid_has_the_formats_defaults() -> None:
    c = chart(PLAIN)
    assert (c.worked, c.first_row, c.technique) == (Worked.FLAT, Side.RS, Technique.INTARSIA)
    assert (c.yarns, c.supplies, c.limits, c.repeat, c.shaping) == ({}, None, Limits(), None, {})
    assert (c.wearer, c.symmetry, c.duplicate, c.written, c.suppressions) == (None, (), (), {}, ())


def test_whole_numbers_may_be_written_with_a_point() -> None:
    c = chart(PLAIN + "limits: {carry: 4.0}\nshaping: {2: 1.0}\n")
    assert c.limits.carry == StitchCount(4)
    assert repr(c.shaping[2].net) == "1"


def test_a_chart_travels_between_processes_with_its_places() -> None:
    c = chart(EVERY_KEY)
    copy = pickle.loads(pickle.dumps(c))
    assert copy.places.value("colours", "A", "shade") == c.places.value("colours", "A", "shade")
    assert copy.places.lines == c.places.lines


def test_the_text_is_kept_without_its_byte_order_mark() -> None:
    assert read(b"\xef\xbb\xbf" + PLAIN.encode()).text == PLAIN
