"""What is said, worked out stitch by stitch as a knitter would, with the row's stitches counted down."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from lintarsia.written.lexer import Unreadable
from lintarsia.written.order import Yarn
from lintarsia.written.spoken import Again, Item, TakeUp, Times, Until, Work

MOST_STITCHES = 100_000  # more than any row; stops repeats of repeats of repeats
MOST_STEPS = 200_000


@dataclass(frozen=True, slots=True)
class Uneven:
    """A repeat that does not come out: `over` stitches are left beyond the `left` that should be."""

    times: int
    over: int
    left: int


@dataclass(slots=True)
class Worked:
    """The stitches made, as symbols in working order; the stitches' kinds; what did not come out even."""

    symbols: list[str] = field(default_factory=list)
    kinds: list[str] = field(default_factory=list)
    uneven: list[Uneven] = field(default_factory=list)


def work_out(items: Sequence[Item], waiting: int, only: str | None = None) -> Worked:
    """The row that the items make out of `waiting` stitches on the needle.

    `only` is the colour where none is said, in a row that has just one. Raises Unreadable where no colour is in hand,
    and for repeats without end.
    """
    hands = _Hands(waiting, only)
    hands.all(items)
    return hands.made


class _Hands:
    def __init__(self, waiting: int, only: str | None) -> None:
        self.waiting = waiting
        self.taken = 0
        self.steps = 0
        self.yarn = None if only is None else Yarn(only)
        self.made = Worked()

    def all(self, items: Sequence[Item]) -> None:
        for item in items:
            if isinstance(item, TakeUp):
                self.yarn = item.yarn
            elif isinstance(item, Work):
                self._work(item)
            else:
                self._again(item)

    def _count(self, item: Work | Again, stitches: int = 1) -> None:
        self.steps += 1
        if self.steps > MOST_STEPS or len(self.made.symbols) + stitches > MOST_STITCHES:
            raise Unreadable(f"this comes to more than {MOST_STITCHES:,} stitches", item.start, item.end)

    def _work(self, item: Work) -> None:
        yarn = item.yarn or self.yarn
        if yarn is None:
            raise Unreadable("nothing says the colour here; expected one of the key", item.start, item.end)
        if isinstance(item.often, Times):
            times = item.often.number
        else:
            times = max(0, (self.waiting - item.often.left - self.taken) // item.takes) if item.takes else 0
        self._count(item, times * item.makes)
        self.taken += times * item.takes
        self.made.symbols += [yarn.symbol] * (times * item.makes)
        self.made.kinds += [item.stitch] * (times * item.makes)

    def _again(self, item: Again) -> None:
        if isinstance(item.often, Times):
            for _ in range(item.often.number):
                self._count(item)
                self.all(item.items)
            return
        self._until(item, item.often)

    def _until(self, item: Again, until: Until) -> None:
        """Whole repeats until `left` stitches are left; what does not come out even is remembered."""
        goal = self.waiting - until.left
        times = 0
        if item.at_least_once:
            self._count(item)
            self.all(item.items)
            times = 1
        while self.taken < goal:
            before = self.taken, len(self.made.symbols), len(self.made.uneven), self.yarn
            self._count(item)
            self.all(item.items)
            if self.taken == before[0]:
                raise Unreadable("this repeat works no stitch, so it has no end", item.start, item.end)
            if self.taken > goal:
                self.taken, size, uneven, self.yarn = before
                del self.made.symbols[size:], self.made.kinds[size:], self.made.uneven[uneven:]
                break
            times += 1
        if self.taken != goal:
            self.made.uneven.append(Uneven(times, goal - self.taken, until.left))
