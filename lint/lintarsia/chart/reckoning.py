"""How a house reckons: what the settings say of limits, tails, edges, spare yarn and holders, in one value."""

from lintarsia.chart.limits import HOUSE_HOLDERS, Holders, Limits
from lintarsia.ground.values import dataclass


@dataclass(frozen=True, slots=True)
class Reckoning:
    """`limits` hold where a chart states none. `tail_mm` is left at each end of a supply. A stitch that is cast on
    takes `cast_on` times its width, one that is bound off `bind_off` times; a stitch of a rib takes `rib` times the
    yarn of a plain one, and a seam `seam` times its own length. `allowance` is the share of yarn beyond the need;
    `holders` says up to how many metres each holder serves.
    """

    tail_mm: float = 150.0  # 15 cm (6 in): common practice; 5 to 8 in are printed too
    cast_on: float = 3.0  # of a long-tail cast-on, and a tail: common practice, as a house value
    bind_off: float = 3.0  # about as much again: a house value
    rib: float = 1.1  # at each change of knit and purl the yarn goes through the fabric: a house value
    seam: float = 3.0  # mattress stitch goes to and fro: a house value
    allowance: float = 0.10  # a house value
    holders: Holders = HOUSE_HOLDERS
    limits: Limits = Limits()  # only what is stated: a stated limit is graver than the house's own


HOUSE_RECKONING = Reckoning()
