"""The yarn that a whole pattern takes in a size: each piece laid out, planned, and counted as often as knitted; what is
cast on, bound off, sewn and swatched, each by itself."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import ceil
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.measure import Length
from lintarsia.pattern.besides import seam_metres, swatch_metres
from lintarsia.pattern.pieceyarn import PieceYarn, yarns_of
from lintarsia.pattern.work import PatternWork

BALL = "ball"  # a holder by this name is a ball, whole or divided; what is wound on others is wound off one anyway


class WoundOff(NamedTuple):
    """A supply of a piece that is worked from a ball while another of the same yarn is: with one ball to buy, `metres`
    of it (the allowance included) are wound off for it first."""

    piece: str
    supply: str
    metres: float


class For(StrEnum):
    """What a part of the yarn is for."""

    PIECE = "piece"  # its knitting, with tails and floats
    CAST_ON = "cast-on"
    BIND_OFF = "bind-off"
    SEAMS = "seams"
    SWATCH = "swatch"


class Part(NamedTuple):
    """So many metres of a yarn, and what for. `times_plain`: a stitch as so many times a plain one, in a rib."""

    what: For
    piece: str  # "" for what is of no one piece
    metres: float
    times_plain: float = 1.0


@dataclass(slots=True)
class Need:
    """One yarn in one size, in metres. `ball` is the length of one ball, where the pattern or a chart says it.

    `metres` is what the pieces take, which is the sum of their plans; `besides` is for seams and the swatch. `parts`
    say it by what it is for, and make up both. `stated` are the balls that the pattern says. `parted` are the supplies
    for which a ball has to be divided, the bought ones being too few for all.
    """

    yarn: str
    name: str
    ball: Length | None
    metres: float = 0.0
    besides: float = 0.0
    allowance: float = 0.0
    pieces: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    parted: tuple["WoundOff", ...] = ()
    stated: float | None = None

    @property
    def whole(self) -> float:
        """Metres for everything but the allowance."""
        return self.metres + self.besides

    @property
    def buy_metres(self) -> float:
        """Metres with the allowance."""
        return self.whole + self.allowance

    @property
    def balls(self) -> float | None:
        """Balls without the allowance."""
        return self.whole / self.ball.metres if self.ball else None

    @property
    def printed(self) -> int | None:
        """Balls as the pattern prints them: the designer's own number where she states one. That there are too few, or
        more than are needed, is for results and the release card."""
        return self.to_buy if self.stated is None else ceil(self.stated)

    @property
    def to_buy(self) -> int | None:
        """Whole balls, allowance included."""
        return ceil(self.buy_metres / self.ball.metres - 1e-9) if self.ball else None


def needs_of(work: PatternWork, size: str) -> dict[str, Need]:
    """By yarn, in the order of the pieces. Colours that name no yarn are left out: nobody says what to buy for them."""
    needs: dict[str, Need] = {}
    for piece in work.pattern.pieces.values():
        laid, times = work.laid(piece, size), piece.knitted(size)
        if laid is None:
            continue
        for own in yarns_of(laid.chart, work.plan(piece, size), work.reckoning_of(piece, size)):
            need = needs.get(own.yarn) or needs.setdefault(own.yarn, _need(work, laid.chart, own))
            need.metres += times * own.metres
            need.pieces += (piece.name,)
            need.parts += (Part(For.PIECE, piece.name, times * own.knitting, laid.chart.gauge.share),)
            edges = ((For.CAST_ON, own.cast_on), (For.BIND_OFF, own.bind_off))
            need.parts += tuple(Part(what, piece.name, times * metres) for what, metres in edges if metres)
    for what, found in ((For.SEAMS, seam_metres(work, size)), (For.SWATCH, swatch_metres(work, size))):
        for yarn, metres in found.items():
            if yarn in needs:
                needs[yarn].besides += metres
                needs[yarn].parts += (Part(what, "", metres),)
    for need in needs.values():
        need.allowance = need.whole * work.allowance
        if need.yarn in work.pattern.yarns:
            need.stated = work.pattern.yarns[need.yarn].balls.get(size)
        need.parted = tuple(_parted(work, need, size))
    return needs


def _need(work: PatternWork, chart: Chart, own: PieceYarn) -> Need:
    bought, described = work.pattern.yarns.get(own.yarn), chart.yarns.get(own.yarn)
    ball = (bought.length if bought else None) or (described.length if described else None)
    return Need(own.yarn, (bought.name if bought else "") or own.name, ball if ball and ball.value else None)


def _parted(work: PatternWork, need: Need, size: str) -> Iterator[WoundOff]:
    """Of each piece the supplies on balls beyond those that there are, the shorter ones."""
    if need.to_buy is None:
        return
    balls = need.to_buy if need.stated is None else ceil(need.stated)
    for name in need.pieces:
        laid, plan = work.laid(work.pattern.pieces[name], size), work.plan(work.pattern.pieces[name], size)
        own = {s for s, colour in laid.chart.colours.items() if colour.yarn == need.yarn} if laid else set()
        large = sorted(
            (s for s in plan.supplies if s.colour in own and s.holder == BALL), key=lambda s: s.metres, reverse=True
        )
        for supply in large[max(1, balls) :]:
            yield WoundOff(name, supply.id, supply.metres * (1 + work.allowance))
