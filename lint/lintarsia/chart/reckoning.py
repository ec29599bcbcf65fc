"""How yarn is reckoned: what the settings say of tails, edges, spare yarn and holders, in one value."""

from lintarsia.chart.model import HOUSE_HOLDERS, Holders
from lintarsia.ground.values import dataclass


@dataclass(frozen=True, slots=True)
class Reckoning:
    """`tail_mm` is left at each end of a supply. A stitch that is cast on takes `cast_on` times its width, one that is
    bound off `bind_off` times. `allowance` is the share of yarn beyond the need; `holders` says up to how many metres
    each holder serves.
    """

    tail_mm: float = 150.0  # 15 cm (6 in): common practice; 5 to 8 in are printed too
    cast_on: float = 3.0  # of a long-tail cast-on, and a tail: common practice, as a house value
    bind_off: float = 3.0  # about as much again: a house value
    allowance: float = 0.10  # a house value
    holders: Holders = HOUSE_HOLDERS


HOUSE_RECKONING = Reckoning()
