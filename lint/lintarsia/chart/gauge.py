"""The gauge: stitches and rows over a length, and what size that makes them."""

from lintarsia.chart.measure import Length
from lintarsia.ground.values import dataclass

# House values: finer than any knitting by hand or machine, and coarser than knitting on one's arms.
NARROWEST_MM, WIDEST_MM = 0.3, 150.0


@dataclass(frozen=True, slots=True)
class FloatGauge:
    """Stitches and rows of the stranded fabric, over the same length as the gauge."""

    stitches: float
    rows: float


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows `over` a length, and what the fabric is worked with; `loop` is the measured yarn a stitch.

    `share` is the yarn of a stitch as so many times that: of a rib, which is not what the gauge was measured on.
    """

    stitches: float
    rows: float
    over: Length
    needle: Length | None = None
    loop: Length | None = None
    float_gauge: FloatGauge | None = None
    share: float = 1.0

    @property
    def stitch_mm(self) -> float:
        """Width of one stitch, mm."""
        return self.over.mm / self.stitches

    @property
    def row_mm(self) -> float:
        """Height of one row, mm."""
        return self.over.mm / self.rows

    @property
    def possible(self) -> bool:
        """Whether stitches and rows have a size that something knitted can have at all."""
        return all(NARROWEST_MM <= size <= WIDEST_MM for size in (self.stitch_mm, self.row_mm))

    @property
    def float_stitch_mm(self) -> float:
        """Width of one stitch of the stranded fabric, mm; the plain one where none is given."""
        return self.over.mm / self.float_gauge.stitches if self.float_gauge else self.stitch_mm
