"""A log and what it is about, worked out at most once: what the rules on logs look at, and the summary."""

from collections.abc import Callable
from functools import cached_property

from lintarsia.chart import HOUSE_RECKONING, Chart, Reckoning
from lintarsia.knits.model import KnitLog, Remark
from lintarsia.knits.revisionmarks import fingerprints_of
from lintarsia.pattern.laying import Laid
from lintarsia.pattern.model import ONE_SIZE, Pattern, Piece
from lintarsia.pattern.work import ChartFile, PatternWork


class KnitWork:
    """`knitted` is the pattern of the log, a chart being a pattern of one piece; None where it cannot be read, and
    then `key` and `fault` say why, with a guess at what was meant in `hint`.
    """

    def __init__(
        self, log: KnitLog, knitted: PatternWork | None, key: str = "", fault: str = "", hint: str = ""
    ) -> None:
        self.log, self.knitted, self.key, self.fault, self.hint = log, knitted, key, fault, hint
        self.look_back: Callable[[], tuple[KnitWork, str] | None] | None = None

    @cached_property
    def before(self) -> "tuple[KnitWork, str] | None":
        """What was knitted as it was then, and when that was in words; None where nobody knows, or nobody can ask."""
        return self.look_back() if self.look_back is not None and self.current is False else None

    @cached_property
    def size(self) -> str | None:
        """The size that was knitted, as the pattern has it; None where it has no such size."""
        if self.knitted is None:
            return None
        pattern = self.knitted.pattern
        if not pattern.sized and self.log.size is None:
            return ONE_SIZE
        return self.log.size if self.log.size in pattern.sizes else None

    @cached_property
    def fingerprints(self) -> frozenset[str]:
        """Every fingerprint that a knitter of this size may have met: the pattern's, and its pieces'."""
        if self.knitted is None or self.size is None:
            return frozenset()
        return fingerprints_of(self.knitted, self.size)

    @property
    def current(self) -> bool | None:
        """Whether what was knitted is what the files say now; None where the log or the files do not say."""
        if not self.log.fingerprint or not self.fingerprints:
            return None
        return self.log.fingerprint in self.fingerprints

    @cached_property
    def main(self) -> Chart | None:
        """The chart that the gauge is held against: that of the piece with the most stitches."""
        if self.knitted is None or self.size is None:
            return None
        laid = [one for piece in self.knitted.pattern.pieces.values() if (one := self.laid(piece))]
        return max((one.chart for one in laid), key=lambda chart: chart.grid.width * chart.grid.height, default=None)

    def laid(self, piece: Piece) -> Laid | None:
        """A piece in the size that was knitted."""
        return None if self.knitted is None or self.size is None else self.knitted.laid(piece, self.size)

    def piece_of(self, remark: Remark) -> Piece | None:
        """The piece that a remark is about: the one that it names, or the only one there is."""
        pieces = self.knitted.pattern.pieces if self.knitted is not None else {}
        if remark.piece is None:
            return next(iter(pieces.values())) if len(pieces) == 1 else None
        return pieces.get(remark.piece)


def as_pattern(chart: Chart, said: str, reckoning: Reckoning = HOUSE_RECKONING) -> PatternWork:
    """A chart as a pattern of one piece in one size, so that all else is written once."""
    name = chart.title
    pieces = {name: Piece(name, {ONE_SIZE: said})}
    pattern = Pattern(chart.path, chart.title, "", (ONE_SIZE,), pieces, wearer=chart.wearer)
    return PatternWork(pattern, {said: ChartFile(said, chart.path, chart)}, (), reckoning)
