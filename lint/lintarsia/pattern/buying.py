"""The yarn that a whole pattern takes in a size: each piece laid out, planned, and counted as often as knitted."""

from dataclasses import dataclass
from math import ceil

from lintarsia.chart.measure import Length
from lintarsia.pattern.work import PatternWork


@dataclass(slots=True)
class Need:
    """One yarn in one size, in metres. `ball` is the length of one ball, where the pattern or a chart says it."""

    yarn: str
    name: str
    ball: Length | None
    metres: float = 0.0
    allowance: float = 0.0
    pieces: tuple[str, ...] = ()

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
    return needs
