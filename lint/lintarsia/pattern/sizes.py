"""Each size in figures: what its pieces come to, where motifs sit, what yarn it takes."""

from collections.abc import Iterator

from lintarsia.chart import Begins
from lintarsia.chart.measure import MM_PER, Length
from lintarsia.ground.values import dataclass
from lintarsia.pattern.buying import needs_of
from lintarsia.pattern.clearance import clearance_of
from lintarsia.pattern.content import piece_fingerprint
from lintarsia.pattern.fit import Motif
from lintarsia.pattern.laying import Laid
from lintarsia.pattern.model import Piece
from lintarsia.pattern.work import PatternWork
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.lengths import length_in, yarn_length
from lintarsia.telling.names import row_word


@dataclass(frozen=True, slots=True)
class PieceLine:
    """A piece in a size. `measured` and `stated` are words; `motif` says where the chart lies on a larger piece."""

    piece: str
    times: int
    cast_on: int
    rows: int
    measured: str
    stated: str
    motif: str
    fingerprint: str
    begun: str = "cast on"  # or where else its first stitches come from


@dataclass(frozen=True, slots=True)
class YarnLine:
    """`needed` is for the knitting, `with_allowance` what to have; balls as whole numbers, None where unknown."""

    name: str
    needed: str
    with_allowance: str
    balls: int | None
    stated: float | None


@dataclass(frozen=True, slots=True)
class SizeSheet:
    size: str
    pieces: tuple[PieceLine, ...]
    yarns: tuple[YarnLine, ...]


def size_sheets(work: PatternWork) -> tuple[SizeSheet, ...]:
    """One sheet for each size, in the pattern's order."""
    return tuple(SizeSheet(size, tuple(_pieces(work, size)), tuple(_yarns(work, size))) for size in work.pattern.sizes)


def _pieces(work: PatternWork, size: str) -> Iterator[PieceLine]:
    for piece in work.pattern.pieces.values():
        laid = work.laid(piece, size)
        if laid is not None:
            yield PieceLine(
                piece=piece.name,
                times=piece.knitted(size),
                cast_on=laid.cast_on,
                rows=laid.chart.grid.height,
                measured=measured(laid),
                stated=", ".join(f"{what} {by[size]}" for what, by in piece.measures.items() if size in by),
                motif=_motif(laid, laid.motif, piece) + _near(laid, piece) if laid.motif else "",
                fingerprint=piece_fingerprint(work, piece, size) or "",
                begun=BEGUN[laid.chart.begins],
            )


BEGUN = {Begins.CAST_ON: "cast on", Begins.PICKED_UP: "picked up", Begins.ON_NEEDLE: "on the needle already"}


def measured(laid: Laid) -> str:
    """`20 cm wide, 20 cm high`, by stitches, rows and gauge; a rib is as wide as that when it is stretched."""
    gauge = laid.chart.gauge
    unit = "in" if gauge.over.imperial else "cm"
    wide = Length(round(laid.widest * gauge.stitch_mm / MM_PER[unit], 1), unit)
    high = Length(round(laid.chart.grid.height * gauge.row_mm / MM_PER[unit], 1), unit)
    stretched = ", stretched" if gauge.share != 1 else ""
    return f"{wide} {'around' if laid.chart.tube else 'wide'}{stretched}, {high} high"


def _motif(laid: Laid, motif: Motif, piece: Piece) -> str:
    where = (
        f"{stitch_count(motif.right)} at its right, {motif.left} at its left, "
        f"{count(motif.below, 'row')} below, {motif.above} above"
    )
    if motif.left == motif.right:
        return f"in the middle: {where}"
    off = abs(motif.left - motif.right) / 2
    return f"{off:g} {'stitch' if off == 1 else 'stitches'} from the middle: {where}"


def _near(laid: Laid, piece: Piece) -> str:
    """How near to an edge the motif comes, and where."""
    found = clearance_of(laid, piece.plain or "")
    if found is None:
        return ""
    return f", {length_in(laid.chart, found.nearest_mm)} from the nearest edge in {row_word(laid.chart)} {found.row}"


def _yarns(work: PatternWork, size: str) -> Iterator[YarnLine]:
    for need in needs_of(work, size).values():
        imperial = need.ball is not None and need.ball.imperial
        yield YarnLine(
            name=need.name,
            needed=yarn_length(need.whole, imperial),
            with_allowance=yarn_length(need.buy_metres, imperial),
            balls=need.to_buy,
            stated=need.stated,
        )
