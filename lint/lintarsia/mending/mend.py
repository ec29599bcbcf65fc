"""One file mended in memory: round after round, until no fix makes it better."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from lintarsia.engine.checking import Checked, check_chart, shown
from lintarsia.ground.values import dataclass
from lintarsia.mending.picking import Choice, choose
from lintarsia.reading.applying import apply, parted
from lintarsia.result import Fixed, Level, Result
from lintarsia.result.baseline import Mark
from lintarsia.settings.model import Settings

# Every round brings the counts of results or the text's length down, so the rounds end by themselves; this is for
# faults of ours only.
MOST_ROUNDS = 1000

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


def mend(
    file: str,
    data: bytes,
    settings: Settings,
    *,
    risky: bool = False,
    block: Level | None = None,
    accepted: frozenset[Mark] = frozenset(),
) -> Mended:
    """The chart or pattern `data`, which goes by the name `file`, with all that can be mended in it mended.

    Safe fixes only, unless `risky`. Fixes that bring a result of a graver or blocking kind are left out. `block` is the
    level that blocks, that of the settings where None. What a baseline has `accepted` is left as it is, like what the
    file itself accepts. Mending the outcome again changes nothing.
    """
    work = _Mending(file, settings, block or settings.block, accepted)
    results, seen = work.check(data)
    if not any(result.fixes for result in results):  # what cannot be read has none, so the rest can be decoded
        return Mended(data, (), results)
    work.mark, text = parted(data)
    in_rounds = seen is not None and seen.round
    state = _State(text, results)
    fixed: list[Fixed] = []
    for _ in range(MOST_ROUNDS):
        chosen = choose(state.results, state.text, risky=risky)
        picture = [choice for choice in chosen if not work.from_plan(choice)]
        counts = [choice for choice in chosen if work.from_plan(choice)]
        state, taken = work.round(state, picture)
        if not taken:  # what a plan says is to be had once the picture it plans for is whole
            state, taken = work.round(state, counts)
        if not taken:
            break
        fixed += [_told(shown(file), choice, in_rounds) for choice in taken]
    return Mended(work.encoded(state.text), tuple(fixed), state.results)


def _told(file: str, choice: Choice, in_rounds: bool) -> Fixed:
    result, fix = choice.result, choice.fix
    line, row = result.region.line, result.row
    return Fixed(file, result.rule, result.key, fix.description, line, row, fix.safe, in_rounds)


class _Mending:
    def __init__(self, file: str, settings: Settings, block: Level, accepted: frozenset[Mark]) -> None:
        self.file = file
        self.settings = settings
        self.block = block
        self.accepted = accepted
        self.mark = b""

    def from_plan(self, choice: Choice) -> bool:
        """Whether a fix states what a plan of the whole chart has found."""
        return self.settings.rulebook.info(choice.result.rule).fix_from_plan

    def check(self, data: bytes) -> Checked:
        results, picture = check_chart(self.file, data, self.settings)
        return Checked(tuple(self._held(result) for result in results), picture)

    def _held(self, result: Result) -> Result:
        known = Mark(result.rule, result.fingerprint) in self.accepted
        acceptable = known and self.settings.rulebook.info(result.rule).acceptable
        return replace(result, suppressed=True) if acceptable else result

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
        return _State(text, self.check(self.encoded(text)).results)

    def _better(self, old: _State, new: _State, group: Sequence[Choice]) -> bool:
        if new.weight >= old.weight:
            return False
        gravest = max(choice.result.level.rank for choice in group)
        before, after = _kinds(old.results), _kinds(new.results)
        return not any(
            number > before[kind] and (self._blinds(kind[0]) or self._blocks(kind[2]) or kind[2].rank > gravest)
            for kind, number in after.items()
        )

    def _blinds(self, rule: str) -> bool:
        return self.settings.rulebook.info(rule).blinds

    def _blocks(self, level: Level) -> bool:
        return self.block is not Level.OFF and level.reaches(self.block)


def _kinds(results: Sequence[Result]) -> Counter[tuple[str, str, Level]]:
    return Counter((result.rule, result.key, result.level) for result in results if not result.suppressed)
