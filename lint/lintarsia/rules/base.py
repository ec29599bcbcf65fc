"""What every rule has: its RuleInfo, its options, its check, gathered as a Rule; and the Work it is given."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from lintarsia.chart import HOUSE_RECKONING, Bounds, Chart, Reckoning, Technique
from lintarsia.ground.values import dataclass
from lintarsia.result import Finding, Kind, RuleInfo

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from lintarsia.chart.sides import Sides
    from lintarsia.planning.model import Plan
    from lintarsia.written.row import WrittenRow


@dataclass(frozen=True, slots=True)
class NoOptions:
    """For rules that have none."""


class Work:
    """A chart and what is computed of it at most once, shared by all rules that look at it."""

    def __init__(
        self,
        chart: Chart,
        reckoning: Reckoning = HOUSE_RECKONING,
        committed: "Callable[[], Chart | None] | None" = None,
    ) -> None:
        self.chart = chart
        self._committed = committed
        self.house = reckoning.limits
        self.reckoning = reckoning
        self.tail_mm = reckoning.tail_mm
        self.allowance = reckoning.allowance

    @cached_property
    def text(self) -> str:
        """All rows of the grid in one text: searching it is the fastest way to ask for a symbol."""
        return "".join(self.chart.grid.rows)

    @cached_property
    def used(self) -> frozenset[str]:
        """The symbols that stand somewhere in the grid, known to the key or not."""
        return frozenset(symbol for symbol in self.chart.grid.symbols if symbol in self.text)

    @cached_property
    def steps(self) -> "NDArray[np.bool_]":
        """Whether each cell of the grid differs from the one to its right, shape (rows, width - 1).

        Most rules ask first where anything changes at all, and most of a chart does not.
        """
        cells = self.chart.grid.cells
        steps: NDArray[np.bool_] = cells[:, 1:] != cells[:, :-1]
        return steps

    @cached_property
    def sides(self) -> "Sides":
        """The rows in pieces: which columns belong to which side of an opening, and what comes and goes where."""
        from lintarsia.chart.sides import Sides

        return Sides(self.chart)

    @cached_property
    def bounds(self) -> Bounds:
        return self.chart.bounds(self.house)

    @property
    def stranding_chosen(self) -> bool:
        """Whether the chart lets a yarn cross stitches of another inside a row."""
        return self.chart.technique is not Technique.INTARSIA or self.bounds.strand != 0

    def forget_commit(self) -> None:
        """For whoever tells himself what has changed."""
        self._committed = None

    @cached_property
    def committed(self) -> Chart | None:
        """The chart as it was committed last, where it differs from that in a repository; None else."""
        return None if self._committed is None else self._committed()

    @cached_property
    def plan(self) -> "Plan":
        from lintarsia.planning.planner import make_plan

        return make_plan(self.chart, self.reckoning)

    @cached_property
    def written(self) -> "tuple[WrittenRow, ...]":
        """The chart's `written:` rows, read and set against its grid."""
        if not self.chart.in_words:
            return ()
        from lintarsia.written.written import read_written

        return read_written(self.chart)


# What rules from elsewhere may count on: the names of lintarsia.result, .chart, .chart.measure, .chart.grid, .telling,
# .planning.model (what `work.plan` is) and .rules.base, and what settings/vetting.py holds rules to. Raised when
# something there goes or changes its meaning, not when it grows.
RULE_API = 1

Check = Callable[[Work, Any], Iterator[Finding]]
OtherCheck = Callable[[Any, Any], Iterator[Any]]  # what `gather` made of a file of its kind, and the options


def check_name(kind: Kind) -> str:
    """What the function is called that looks at files of a kind, in a rule's module."""
    return "check" if kind is Kind.CHART else f"check_{kind}"


@dataclass(frozen=True, slots=True)
class Rule:
    """`check` looks at a chart, `others` at files of other kinds; where the engine makes a rule's results it has none
    of them.

    `origin` says where a rule that is not the house's own comes from: "of acme-rules 1.2", "in tools/rules.py".
    """

    info: RuleInfo
    options: type[Any]
    check: Check | None = None
    others: Mapping[Kind, OtherCheck] = field(default_factory=dict)
    origin: str = ""

    def check_of(self, kind: Kind) -> Callable[..., Iterator[Any]] | None:
        """What looks at files of a kind; None where the rule does not."""
        return self.check if kind is Kind.CHART else self.others.get(kind)

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """The kinds of file that it has a check for."""
        return tuple(kind for kind in Kind if self.check_of(kind) is not None)


def rule_with(info: RuleInfo, options: type[Any], checks: Mapping[Kind, OtherCheck], origin: str = "") -> Rule:
    """The rule whose checks are these, by the kind of file that each looks at."""
    others: dict[Kind, OtherCheck] = {kind: check for kind, check in checks.items() if kind is not Kind.CHART}
    return Rule(info, options, checks.get(Kind.CHART), others, origin)


def checks_in(holder: object) -> dict[Kind, Any]:
    """The checks of a rule's module, or of a Rule, by the kinds that it looks at."""
    if isinstance(holder, Rule):
        return {kind: holder.check_of(kind) for kind in holder.kinds}
    found = {kind: getattr(holder, check_name(kind), None) for kind in Kind}
    return {kind: check for kind, check in found.items() if check is not None}
