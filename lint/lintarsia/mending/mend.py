"""One file mended in memory: round after round, until no fix makes it better."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from lintarsia.engine.checking import check_chart, shown
from lintarsia.mending.applying import apply, parted
from lintarsia.mending.choosing import Choice, choose
from lintarsia.result import Fixed, Level, Result
from lintarsia.settings.model import Settings

# Every round brings the counts of results or the text's length down, so the rounds end by themselves; this is for
# faults of ours only.
MOST_ROUNDS = 1000
BROKEN = ("file/unreadable", "engine/rule-failed")

Weight = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Mended:
    """What came of mending a file's `data`, and the results that are left in it."""

    data: bytes
    fixed: tuple[Fixed, ...]
    results: tuple[Result, ...]


@dataclass(frozen=True, slots=True)
class _State:
    text: str
    results: tuple[Result, ...]

    @property
    def weight(self) -> Weight:
        """Errors, warnings, notes; then the length, since a file may have more faults than are told at a time."""
        counts = Counter(result.level for result in self.results if not result.suppressed)
        return counts[Level.ERROR], counts[Level.WARNING], counts[Level.NOTE], len(self.text)


def mend(file: str, data: bytes, settings: Settings, *, risky: bool = False, block: Level | None = None) -> Mended:
    """The chart or pattern `data`, which goes by the name `file`, with all that can be mended in it mended.

    Safe fixes only, unless `risky`. Fixes that bring a result of a graver or blocking kind are left out. `block` is the
    level that blocks, that of the settings where None. Mending the outcome again changes nothing.
    """
    work = _Mending(file, settings, risky, block or settings.block)
    results = check_chart(file, data, settings).results
    if not any(result.fixes for result in results):  # what cannot be read has none, so the rest can be decoded
        return Mended(data, (), results)
    work.mark, text = parted(data)
    state = _State(text, results)
    fixed: list[Fixed] = []
    for _ in range(MOST_ROUNDS):
        chosen = choose(state.results, state.text, risky=risky)
        state, taken = work.round(state, chosen)
        if not taken:
            break
        fixed += [_told(shown(file), choice) for choice in taken]
    return Mended(work.encoded(state.text), tuple(fixed), state.results)


def _told(file: str, choice: Choice) -> Fixed:
    result = choice.result
    return Fixed(file, result.rule, result.key, choice.fix.description, result.region.line, result.row, choice.fix.safe)


class _Mending:
    def __init__(self, file: str, settings: Settings, risky: bool, block: Level) -> None:
        self.file = file
        self.settings = settings
        self.risky = risky
        self.block = block
        self.mark = b""

    def encoded(self, text: str) -> bytes:
        return self.mark + text.encode("utf-8")

    def round(self, state: _State, chosen: Sequence[Choice]) -> tuple[_State, list[Choice]]:
        """The state with as many of `chosen` as make it better, and which these are. All are places in one text."""
        taken: list[Choice] = []
        base = state.text
        waiting = [list(chosen)] if chosen else []
        while waiting:  # all at once; where that is not better, each half by itself, and so on
            group = waiting.pop()
            trial = self._checked(apply(base, (piece for choice in taken + group for piece in choice.pieces)))
            if self._better(state, trial, group):
                state = trial
                taken += group
            elif len(group) > 1:
                middle = len(group) // 2
                waiting += [group[middle:], group[:middle]]
        return state, taken

    def _checked(self, text: str) -> _State:
        return _State(text, check_chart(self.file, self.encoded(text), self.settings).results)

    def _better(self, old: _State, new: _State, group: Sequence[Choice]) -> bool:
        if new.weight >= old.weight:
            return False
        gravest = max(choice.result.level.rank for choice in group)
        before, after = _kinds(old.results), _kinds(new.results)
        return not any(
            number > before[kind] and (kind[0] in BROKEN or self._blocks(kind[2]) or kind[2].rank > gravest)
            for kind, number in after.items()
        )

    def _blocks(self, level: Level) -> bool:
        return self.block is not Level.OFF and level.reaches(self.block)


def _kinds(results: Sequence[Result]) -> Counter[tuple[str, str, Level]]:
    return Counter((result.rule, result.key, result.level) for result in results if not result.suppressed)
