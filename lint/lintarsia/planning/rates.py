"""How much yarn a stitch of a chart takes, and what lies between stitches. Lengths in mm, rounded nowhere."""

from dataclasses import replace

from lintarsia.chart import HOUSE_RECKONING, Begins, Chart, Gauge, Reckoning, Technique
from lintarsia.ground.values import dataclass

MUNDEN_KW = 4.1
"""Loop length over stitch width of a plain fabric, wet-relaxed, which is what a washed hand-knit is.

D. L. Munden, "The Geometry and Dimensional Properties of Plain-Knit Fabrics", J. Textile Institute 50 (1959) T448:
wales/cm = Kw / loop length (cm), with 4.2 for fully relaxed fabric; 4.1, and 3.8 for dry-relaxed, from memory.
"""


@dataclass(frozen=True, slots=True)
class Rates:
    """Millimetres of yarn: for a stitch, across a stitch when carried or floated, up a row when idle, at each end; and
    for a stitch that is cast on or bound off, and to spare where a yarn casts on the first row."""

    loop: float
    carry: float
    floating: float
    row: float
    tail: float
    cast_on: float
    bind_off: float
    spare: float


def loop_mm(gauge: Gauge, technique: Technique = Technique.INTARSIA) -> float:
    """Yarn in one stitch, mm: as measured on a swatch, else Munden's constant times the stitch width.

    A stranded chart is knitted at its stranded gauge where the file gives one; a rib takes its share more.
    """
    if gauge.loop:
        return gauge.loop.mm * gauge.share
    wide = gauge.float_stitch_mm if technique is Technique.STRANDED else gauge.stitch_mm
    return MUNDEN_KW * wide * gauge.share


def rates(gauge: Gauge, technique: Technique, reckoning: Reckoning = HOUSE_RECKONING) -> Rates:
    """The rates of a chart. Floats run through stranded fabric whatever the rest is; all else follows the technique."""
    stranded = technique is Technique.STRANDED and gauge.float_gauge is not None
    row = gauge.over.mm / gauge.float_gauge.rows if stranded and gauge.float_gauge else gauge.row_mm
    carry = gauge.float_stitch_mm if stranded else gauge.stitch_mm
    tail = reckoning.tail_mm
    spare = tail if reckoning.cast_on else 0.0  # stitches that are picked up and not cast on are told so
    edges = (reckoning.cast_on * carry, reckoning.bind_off * carry, spare)
    return Rates(loop_mm(gauge, technique), carry, gauge.float_stitch_mm, row, tail, *edges)


def rates_of(chart: Chart, reckoning: Reckoning = HOUSE_RECKONING) -> Rates:
    """The rates of a chart; one that begins on stitches that are there already has no cast-on to spare a tail for."""
    per = rates(chart.gauge, chart.technique, reckoning)
    return per if chart.begins is Begins.CAST_ON else replace(per, spare=0.0)
