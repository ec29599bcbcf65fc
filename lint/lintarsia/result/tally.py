"""How many results there are of each kind, without looking at more of each than that."""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from lintarsia.result.model import Level, Result


class Tally(NamedTuple):
    """What results are counted by."""

    file: str
    level: Level
    suppressed: bool


def tally(results: Sequence[Result]) -> Counter[Tally]:
    """How many results of each kind there are; known beforehand where they have been put aside."""
    known: Counter[Tally] | None = getattr(results, "tally", None)
    if known is not None:
        return known
    return Counter(Tally(result.file, result.level, result.suppressed) for result in results)
