"""Rules of toys, in a module of their own so that another process finds them."""

from collections.abc import Iterator
from dataclasses import dataclass

from lintarsia.chart.measure import Length, StitchCount
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work


@dataclass(frozen=True)
class LetterOptions:
    symbol: str = "W"
    rows: bool = True
    most: int = 100
    reach: Length | StitchCount = Length(2.5, "cm")
    names: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.most == 0:
            raise ValueError("most must be 1 or more")


def letters(work: Work, options: LetterOptions) -> Iterator[Finding]:
    """One finding for each stitch of a symbol, bottom-up."""
    grid = work.chart.grid
    found = 0
    for row, text in enumerate(grid.rows, 1):
        for column, symbol in enumerate(text.rjust(grid.width)):
            if symbol == options.symbol and found < options.most:
                found += 1
                stitch = grid.stitch(column)
                region = work.chart.places.cells(row, stitch, stitch)
                message = f"row {row} has the letter {symbol}"
                yield Finding("letter", message, region, row, (stitch, stitch))


def fails(work: Work, options: NoOptions) -> Iterator[Finding]:
    yield Finding("before", "found before the failure", work.chart.places.row(1), 1)
    raise ZeroDivisionError("toy fault")


def info(name: str, level: Level) -> RuleInfo:
    return RuleInfo(name, level, f"summary of {name}", "why", f"remedy of {name}", {"letter": "a letter"})
