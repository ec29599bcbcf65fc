"""What is said, worked out stitch by stitch as a knitter would, with the row's stitches counted down."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.order import ColourSupply
from lintarsia.written.spoken import Again, Item, StitchWork, TakeUp, Times, Until

MOST_STITCHES = 100_000  # more than any row; stops repeats of repeats of repeats
MOST_STEPS = 200_000
UNSAID = ""  # the symbol of a stitch whose colour is not said yet


@dataclass(frozen=True, slots=True)
class Uneven:
    """A repeat that does not come out: `over` stitches are left beyond the `left` that should be."""

    times: int
    over: int
    left: int


@dataclass(slots=True)
class WorkedOut:
    """The stitches made, as symbols in working order; the stitches' kinds; what did not come out even.

    `taken` stitches of the needle are worked. `left` is how many the words leave unworked; below 0, how many they take
    too many. `shaped`: some stitch took more or fewer than it made.
    """

    symbols: list[str] = field(default_factory=list)
    kinds: list[str] = field(default_factory=list)
    uneven: list[Uneven] = field(default_factory=list)
    taken: int = 0
    left: int = 0
    shaped: bool = False


@dataclass(frozen=True, slots=True)
class Shown:
    """What words without colours of their own refer to: the charted row and the one below, in working order."""

    charted: str = ""
    below: str = ""


def work_out(items: Sequence[Item], waiting: int, only: str | None = None, shown: Shown | None = None) -> WorkedOut:
    """The row that the items make out of `waiting` stitches on the needle.

    `only` is the colour where none is said, in a row that has just one. Raises NotUnderstood where no colour is in
    hand, and for repeats without end.
    """
    hands = _Hands(waiting, only, shown or Shown())
    hands.in_patt = any(isinstance(item, StitchWork) and item.follows == "chart" for item in items)
    hands.all(items)
    hands.done()
    return hands.made


class _Hands:
    def __init__(self, waiting: int, only: str | None, shown: Shown) -> None:
        self.waiting = waiting
        self.shown = shown
        self.taken = 0
        self.steps = 0
        self.in_patt = False  # the row keeps to the chart, so what says no colour does too
        self.yarn = None if only is None else ColourSupply(only)
        self.last: str | None = None
        # Stitches whose colour is not said: index, the colour before them, who says so.
        self.unsaid: list[tuple[int, str | None, StitchWork]] = []
        self.made = WorkedOut()

    def all(self, items: Sequence[Item]) -> None:
        for item in items:
            if isinstance(item, TakeUp):
                self.yarn = item.yarn
            elif isinstance(item, StitchWork):
                self._work(item)
            else:
                self._again(item)

    def done(self) -> None:
        self._settle(None)
        self.made.taken = self.taken
        self.made.left = self.waiting - self.taken

    def _count(self, item: StitchWork | Again, stitches: int = 1) -> None:
        self.steps += 1
        if self.steps > MOST_STEPS or len(self.made.symbols) + stitches > MOST_STITCHES:
            raise NotUnderstood(f"this comes to more than {MOST_STITCHES:,} stitches", item.start, item.end)

    def _work(self, item: StitchWork) -> None:
        if item.stitch == "co" and not self.taken and isinstance(item.often, Times):
            self.waiting += item.often.number  # cast on before the row is worked: its words work over them
            return
        if isinstance(item.often, Times):
            times = item.often.number
        else:
            times = max(0, (self.waiting - item.often.left - self.taken) // item.takes) if item.takes else 0
        self._count(item, times * item.makes)
        self._make(item, times * item.makes)
        self.made.shaped = self.made.shaped or (item.shapes and times > 0)
        self.taken += times * item.takes
        self.made.kinds += [item.stitch] * (times * item.makes)

    def _make(self, item: StitchWork, number: int) -> None:
        """The new stitches in their colours: said, in hand, of the stitches before, or of what is followed."""
        if not number:
            if item.stitch == "bo" and item.yarn:
                self.last = item.yarn.symbol  # cast off 5 in A, k until …
            return
        if item.follows in ("chart", "below") or (item.follows == "even" and self.yarn is None):
            symbols = self._followed(item, number)
        else:
            said = self._colour(item, number)
            symbols = said * number if len(said) == 1 else said
        if symbols[0] != UNSAID:
            self._settle(symbols[0])
            self.last = symbols[-1]
        self.made.symbols += symbols

    def _settle(self, following: str | None) -> None:
        """Colours for the stitches that had none: of the two beside them the charted one, else the one before."""
        for at, before, item in self.unsaid:
            beside = [symbol for symbol in (before, following) if symbol is not None]
            if not beside:
                raise _no_colour(item)
            charted = self.shown.charted[at : at + 1]
            self.made.symbols[at] = charted if charted in beside else beside[0]
        self.unsaid = []

    def _colour(self, item: StitchWork, number: int) -> list[str]:
        yarn = item.yarn or self.yarn
        if yarn is not None:
            return [yarn.symbol]
        if self.last is not None and not item.shapes:
            return [self.last]
        if number > 1 and not item.shapes:
            if self.in_patt:  # k2, k2tog, patt 5, ssk, k2
                return self._followed(item, number)
            raise _no_colour(item)
        first = len(self.made.symbols)
        self.unsaid += [(at, self.last, item) for at in range(first, first + number)]
        return [UNSAID]

    def _followed(self, item: StitchWork, number: int) -> list[str]:
        charted, below = self.shown.charted, self.shown.below
        source, at = charted, len(self.made.symbols)
        if item.follows == "below" and len(below) == self.waiting:
            source, at = below, self.taken
        if not source:
            raise _no_colour(item)
        return list(source[at : at + number].ljust(number, source[-1]))

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
            before = self.taken, len(self.made.symbols), len(self.made.uneven), self.yarn, self.last
            self._count(item)
            self.all(item.items)
            if self.taken == before[0]:
                raise NotUnderstood("this repeat works no stitch, so it has no end", item.start, item.end)
            if self.taken > goal:
                self.taken, size, uneven, self.yarn, self.last = before
                del self.made.symbols[size:], self.made.kinds[size:], self.made.uneven[uneven:]
                self.unsaid = [unsaid for unsaid in self.unsaid if unsaid[0] < size]
                break
            times += 1
        if self.taken != goal:
            self.made.uneven.append(Uneven(times, goal - self.taken, until.left))


def _no_colour(item: StitchWork) -> NotUnderstood:
    return NotUnderstood("nothing says the colour here; expected one of the key", item.start, item.end)
