"""The yarn that a whole pattern takes in a size: each piece laid out, planned, and counted as often as knitted."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import NamedTuple

from lintarsia.chart.measure import Length
from lintarsia.pattern.work import PatternWork

BALL = "ball"  # a holder by this name is a ball, whole or divided; what is wound on others is wound off one anyway


class Parted(NamedTuple):
    """A supply of a piece that is worked from a ball while another of the same yarn is: with one ball to buy, `metres`
    of it (the allowance included) are wound off for it first."""

    piece: str
    supply: str
    metres: float


@dataclass(slots=True)
class Need:
    """One yarn in one size, in metres. `ball` is the length of one ball, where the pattern or a chart says it.
    `parted` are the supplies for which a ball has to be divided, the bought ones being too few for all."""

    yarn: str
    name: str
    ball: Length | None
    metres: float = 0.0
    allowance: float = 0.0
    pieces: tuple[str, ...] = ()
    parted: tuple["Parted", ...] = ()

    @property
    def balls(self) -> float | None:
        """Balls for the knitting alone."""
        return self.metres / self.ball.metres if self.ball else None

    @property
    def to_buy(self) -> int | None:
        """Whole balls, allowance included."""
        return ceil((self.metres + self.allowance) / self.ball.metres - 1e-9) if self.ball else None


def needs_of(work: PatternWork, size: str) -> dict[str, Need]:
    """By yarn, in the order of the pieces. Colours that name no yarn are left out: nobody says what to buy for them."""
    needs: dict[str, Need] = {}
    for piece in work.pattern.pieces.values():
        laid, times = work.laid(piece, size), piece.knitted(size)
        if laid is None:
            continue
        for used in work.plan(piece, size).yarns:
            if not used.yarn:
                continue
            bought, described = work.pattern.yarns.get(used.yarn), laid.chart.yarns.get(used.yarn)
            ball = (bought.length if bought else None) or (described.length if described else None)
            name = (bought.name if bought else "") or used.name
            need = needs.setdefault(used.yarn, Need(used.yarn, name, ball if ball and ball.value else None))
            need.metres += times * used.metres
            need.pieces += (piece.name,)
    for need in needs.values():
        need.allowance = need.metres * work.allowance
        need.parted = tuple(_parted(work, need, size))
    return needs


def _parted(work: PatternWork, need: Need, size: str) -> Iterator[Parted]:
    """Of each piece the supplies on balls beyond those that there are, the shorter ones."""
    if need.to_buy is None:
        return
    stated = work.pattern.yarns[need.yarn].balls.get(size) if need.yarn in work.pattern.yarns else None
    balls = need.to_buy if stated is None else ceil(stated)
    for name in need.pieces:
        laid, plan = work.laid(work.pattern.pieces[name], size), work.plan(work.pattern.pieces[name], size)
        own = {s for s, colour in laid.chart.colours.items() if colour.yarn == need.yarn} if laid else set()
        large = sorted(
            (s for s in plan.supplies if s.colour in own and s.holder == BALL), key=lambda s: s.metres, reverse=True
        )
        for supply in large[max(1, balls) :]:
            yield Parted(name, supply.id, supply.metres * (1 + work.allowance))
