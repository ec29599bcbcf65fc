"""How rows are written, and in whose words.

`reckoning` plans the yarns where words without supplies have to know whether one hangs on the work already.
"""

from lintarsia.chart import HOUSE_RECKONING, Reckoning
from lintarsia.ground.values import dataclass
from lintarsia.telling.terms import Terms


@dataclass(frozen=True, slots=True)
class Style:
    """How rows are written: repeats folded, asterisks used for them, like rows merged; in whose words."""

    fold: bool = True
    stars: bool = True
    merge: bool = True
    terms: Terms = Terms.AMERICAN
    reckoning: Reckoning = HOUSE_RECKONING


HOUSE_STYLE = Style()
