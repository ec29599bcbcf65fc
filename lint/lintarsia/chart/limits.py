"""How far yarns may run and how many a row may take: what is stated, the house's values, what comes of both."""

from typing import TypeVar

from lintarsia.chart.gauge import Gauge
from lintarsia.chart.measure import Length, StitchCount
from lintarsia.chart.ways import Technique, Wearer
from lintarsia.ground.values import dataclass

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits as stated by a chart or by the settings; None where unsaid. `float`, `carry` as numbers are stitches."""

    supplies: int | None = None
    float: Length | StitchCount | int | None = None
    carry: Length | StitchCount | int | None = None
    idle: int | None = None
    strand: int | None = None


@dataclass(frozen=True, slots=True)
class Bounds:
    """Limits resolved for one chart. `strand`, `carry`, `idle`: None means no bound.

    `float_mm` is the longest float as a length and `float_stitches` the most whole stitches it may cross.
    """

    supplies: int
    float_mm: float
    float_stitches: int
    strand: int | None
    carry: int | None
    idle: int | None


HOUSE_SUPPLIES, HOUSE_FLOAT, HOUSE_IDLE = 8, Length(2.5, "cm"), 2
HOUSE_LIMITS = Limits(supplies=HOUSE_SUPPLIES, float=HOUSE_FLOAT, idle=HOUSE_IDLE)  # carried as far as a float may be
INFANT_CARRY, INFANT_IDLE = 1, 0  # a stitch aside and no wait leave nothing that a finger goes through: house values

Holders = tuple[tuple[float, str], ...]
HOUSE_HOLDERS: Holders = ((3.0, "loose strand"), (10.0, "butterfly"), (20.0, "bobbin"), (float("inf"), "ball"))
"""Up to how many metres each holder serves. No capacity is published anywhere; these are house values."""


def resolved(own: Limits, house: Limits, gauge: Gauge, technique: Technique, wearer: Wearer | None) -> Bounds:
    """The limits that hold: a chart's own, then the house's, then the technique's."""
    width = gauge.float_stitch_mm
    house_reach = HOUSE_FLOAT if house.float is None else house.float
    reach = house_reach if own.float is None else own.float
    float_stitches = _in_stitches(reach, width)
    float_mm = reach.mm if isinstance(reach, Length) else float_stitches * width
    supplies = _said(own.supplies, _said(house.supplies, HOUSE_SUPPLIES))
    # A carry runs behind the fabric that is knitted: of a stranded chart, the stranded one.
    across = width if technique is Technique.STRANDED else gauge.stitch_mm
    own_carry, house_carry = (None if c is None else _in_stitches(c, across) for c in (own.carry, house.carry))
    if technique is Technique.STRANDED:  # no limit of the house binds a yarn that runs along the whole row
        return Bounds(supplies, float_mm, float_stitches, own.strand, own_carry, own.idle)
    carry, idle = _said(house_carry, float_stitches), _said(house.idle, HOUSE_IDLE)
    if wearer is Wearer.INFANT:
        carry, idle = min(carry, INFANT_CARRY), INFANT_IDLE
    usual = 0 if technique is Technique.INTARSIA else float_stitches
    strand = _said(own.strand, _said(house.strand, usual))
    return Bounds(supplies, float_mm, float_stitches, strand, _said(own_carry, carry), _said(own.idle, idle))


def _in_stitches(reach: Length | StitchCount | int, width: float) -> int:
    """The most whole stitches of `width` mm that a reach goes across."""
    if isinstance(reach, Length):
        return int(reach.mm / width + 1e-9)
    return reach.count if isinstance(reach, StitchCount) else reach


def _said(value: T | None, otherwise: T) -> T:
    return otherwise if value is None else value
