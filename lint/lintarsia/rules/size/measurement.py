"""size/measurement: finished measurements against stitches, rows and gauge."""

from collections.abc import Iterator
from dataclasses import field
from typing import TYPE_CHECKING

from lintarsia.chart.measure import MM_PER, Length
from lintarsia.ground.values import dataclass
from lintarsia.result import Kind, Level, RuleInfo
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.pattern.laying import Laid
    from lintarsia.pattern.measurement import Measurement, StatedLength
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import About, PatternWork, SizeFault


@dataclass(frozen=True, slots=True)
class Options:
    tolerance: Length = field(
        default=Length(5, "mm"),
        metadata={"help": "How far a metric measurement may be off; printed ones are rounded. The pattern's own wins."},
    )
    imperial_tolerance: Length = field(
        default=Length(0.25, "in"), metadata={"help": "The same for a measurement in inches or yards."}
    )


INFO = RuleInfo(
    name="size/measurement",
    level=Level.ERROR,
    summary="a finished measurement is not what stitches, rows and gauge come to",
    why=(
        "Knitters choose their size by the finished measurements. Where the stitches come to another width or height "
        "at the pattern's own gauge the garment does not fit, however well it is knitted."
    ),
    remedy="change the measurement, or the stitches, rows or repeats; allow more with `tolerance`",
    keys={
        "width": "the width is not the stitches at the gauge",
        "height": "the height is not the rows at the gauge",
        "around": "the measure around a tube is not the stitches at the gauge",
    },
    sources=(
        "arithmetic: stitches ÷ stitches to the gauge length × gauge length",
        "tolerances: house values, half of the last digit usually printed; whole, half and quarter inches beside "
        "centimetres are common practice",
    ),
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: Options) -> "Iterator[About]":
    """One finding for each measurement that is off. A piece whose chart has no gauge of its own is left alone."""
    from lintarsia.pattern.work import SizeFault

    def judge(piece: "Piece", size: str) -> "Iterator[SizeFault]":
        laid = work.laid(piece, size) if piece.measures else None
        if laid is None or "gauge" in laid.chart.assumed:
            return
        for what, sizes in piece.measures.items():
            words = _off(work, laid, what, sizes[size], options) if size in sizes else ""
            if words:
                yield SizeFault(what, words, work.place("pieces", piece.name, "measures", what, size))

    return work.each(judge)


def _tolerance(work: "PatternWork", stated: "StatedLength", options: Options, *, beside: bool) -> float:
    """mm. The second of two numbers is the first in the other unit, rounded as it is printed: 16 in is any length that
    is nearer to it than to 15 or 17."""
    usual = options.imperial_tolerance if stated.length.imperial else options.tolerance
    own = (work.pattern.tolerance or usual).mm
    return max(own, stated.step_mm / 2) if beside else own


def measured_mm(laid: "Laid", what: str) -> float:
    """What a piece comes to, mm: its widest row, its rows, or the way round a tube; all as its chart is laid out."""
    gauge = laid.chart.gauge
    if what == "height":
        return laid.chart.grid.height * gauge.row_mm
    wide = laid.widest * gauge.stitch_mm
    return wide / 2 if laid.chart.tube and what == "width" else wide


def _off(work: "PatternWork", laid: "Laid", what: str, said: "Measurement", options: Options) -> str:
    """What is wrong with the first number that is off; "" where all are near enough."""
    found = measured_mm(laid, what)
    for at, stated in enumerate(said.stated):
        if abs(found - stated.length.mm) > _tolerance(work, stated, options, beside=at > 0) + 1e-6:
            unit = stated.length.unit
            name = {"width": "wide", "height": "high", "around": "around"}[what]
            return f"{_made(laid, what)} {found / MM_PER[unit]:.1f} {unit} {name}; {said} is stated"
    return ""


def _made(laid: "Laid", what: str) -> str:
    gauge = laid.chart.gauge
    if what == "height":
        return f"{count(laid.chart.grid.height, row_word(laid.chart))} at {gauge.rows:g} to {gauge.over} are"
    half = " laid flat" if laid.chart.tube and what == "width" else ""
    return f"{stitch_count(laid.widest)} at {gauge.stitches:g} to {gauge.over} are{half}"
