"""All results of one run, as reports are made of them."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import field

from lintarsia.ground.kinds import Kind
from lintarsia.ground.notebooks import shown_in_notebook
from lintarsia.ground.values import dataclass
from lintarsia.result.model import Fixed, Level, Picture, Result, RuleInfo
from lintarsia.result.tally import Tally, tally
from lintarsia.telling.counts import count, one_and_all


@dataclass(frozen=True, slots=True)
class Report:
    """All results of one run, sorted; `pictures` holds an entry for each readable file that has results."""

    charts: int
    results: Sequence[Result]  # a tuple, but for very many, which lie in a file
    pictures: Mapping[str, Picture] = field(default_factory=dict)
    rules: Mapping[str, RuleInfo] = field(default_factory=dict)
    blocking: Level = Level.ERROR
    version: str = ""
    files: tuple[str, ...] = ()  # every file that was looked at, results or not
    others: Mapping[Kind, int] = field(default_factory=dict)  # how many files of each other kind were looked at
    blocking_of: Mapping[str, Level] = field(default_factory=dict)  # by file, where it may differ from `blocking`
    baseline_of: Mapping[str, str] = field(default_factory=dict)  # by file, the baseline that its settings name
    root: str = ""  # the absolute folder that files are relative to, where that is stated
    fingerprints: Mapping[str, str] | None = None  # by file, of what a knitter knits, winds or reads; None: unasked
    fixed: tuple[Fixed, ...] | None = None  # what was mended before this report was made; None: nothing was to be

    def __repr__(self) -> str:
        """One line for Python sessions: how much was looked at, what stands."""
        files = [count(self.charts, "chart"), *(count(number, kind.noun) for kind, number in self.others.items())]
        levels = (Level.ERROR, Level.WARNING, Level.NOTE)
        stand = [count(number, level.value) for level in levels if (number := self.count(level))]
        accepted = [f"{self.suppressed:,} accepted"] if self.suppressed else []
        return f"<Report of {one_and_all(files)}: {', '.join(stand + accepted) or 'no results'}>"

    def _repr_html_(self) -> str | None:
        """For notebooks: a table of what was found, where lintarsia itself was imported."""
        return shown_in_notebook(self)

    @property
    def by_kind(self) -> dict[Kind, int]:
        """How many files of each kind were looked at, charts first; all kinds are there."""
        return dict.fromkeys(Kind, 0) | dict(self.others) | {Kind.CHART: self.charts}

    def count(self, level: Level) -> int:
        """How many results of `level` stand (suppressed ones are counted apart)."""
        return sum(number for (_, own, kept), number in self._tally().items() if own is level and not kept)

    @property
    def suppressed(self) -> int:
        return sum(number for (_, _, kept), number in self._tally().items() if kept)

    @property
    def blocked(self) -> bool:
        """Whether anything that stands is at or above the blocking level."""
        return any(self._blocks(*kind) for kind in self._tally())

    def blocks(self, result: Result) -> bool:
        """Whether a result is at or above the level that blocks in its file; nothing is where that level is `off`."""
        return self._blocks(result.file, result.level, result.suppressed)

    def _blocks(self, file: str, own: Level, suppressed: bool) -> bool:
        level = self.blocking_of.get(file, self.blocking)
        return not suppressed and level is not Level.OFF and own.reaches(level)

    def _tally(self) -> Counter[Tally]:
        return tally(self.results)
