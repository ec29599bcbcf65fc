"""How rows are written, and in whose words."""

from lintarsia.ground.values import dataclass
from lintarsia.telling.terms import Terms


@dataclass(frozen=True, slots=True)
class Style:
    """How rows are written: repeats folded, asterisks used for them, like rows merged; in whose words."""

    fold: bool = True
    stars: bool = True
    merge: bool = True
    terms: Terms = Terms.AMERICAN


HOUSE_STYLE = Style()
