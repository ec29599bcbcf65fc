"""A row's stitches in the order in which the knitter works them; squares without a stitch are left out."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from lintarsia.chart import Chart, Side, Worked
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.sides import Sides, Stint
from lintarsia.ground.values import dataclass


@dataclass(frozen=True, slots=True)
class ColourSupply:
    """What a stretch is worked in: a colour's symbol, and which of its supplies (1, 2, …) where that is said."""

    symbol: str
    supply: int | None = None


@dataclass(frozen=True, slots=True)
class YarnStretch:
    """Neighbouring stitches in one yarn. `stitch` is `k` or `p` where that is not the row's usual one, or the
    name of a decrease."""

    yarn: ColourSupply
    count: int
    stitch: str = ""


def worked_symbols(chart: Chart, row: int) -> str:
    """The symbols of the row's real stitches in working order: the knitter's first stitch first."""
    line = chart.grid.rows[row - 1].replace(NO_STITCH_SYMBOL, "")
    return line[::-1] if chart.leftward(row) else line


def stint_symbols(chart: Chart, stint: Stint) -> str:
    """The same of what is worked without turning: a whole row, or a side's part of it."""
    first, end = stint.columns
    codes = chart.grid.cells[stint.row - 1, first:end].tolist()
    line = "".join(chart.grid.symbols[code] for code in codes if code >= 0)
    return line[::-1] if stint.leftward else line


def worked_stitches(chart: Chart, row: int) -> list[int]:
    """The chart's numbers of the same stitches, in the same order."""
    line = chart.grid.rows[row - 1]
    numbers = [len(line) - column for column, symbol in enumerate(line) if symbol != NO_STITCH_SYMBOL]
    return numbers[::-1] if chart.leftward(row) else numbers


def stint_stitches(chart: Chart, stint: Stint) -> list[int]:
    """The chart's numbers of a stint's stitches, in working order."""
    first, end = stint.columns
    codes = chart.grid.cells[stint.row - 1, first:end].tolist()
    numbers = [chart.grid.width - column for column, code in enumerate(codes, first) if code >= 0]
    return numbers[::-1] if stint.leftward else numbers


def stint_of(sides: Sides, row: int, half: str) -> Stint | None:
    """A side's part of a row; None where the row is not parted, or that side has ended."""
    if row > sides.chart.grid.height:
        return None
    return next((stint for stint in sides.stints(row) if stint.half == half), None)


def stint_kinds(chart: Chart, stint: Stint) -> str:
    """`k` or `p` for each stitch of a stint, as it is worked, in working order; "" where all are the usual one."""
    if chart.texture is None:
        return ""
    row, (first, end) = stint.row, stint.columns
    real = chart.grid.cells[row - 1, first:end] >= 0
    shown, back = chart.texture.purl[row - 1, first:end][real], usual_stitch(chart, row) == "p"
    line = "".join("p" if purl != back else "k" for purl in shown.tolist())
    return line[::-1] if stint.leftward else line


def with_kinds(runs: Iterable[YarnStretch], kinds: str, usual: str) -> list[YarnStretch]:
    """The stretches parted where knit and purl change."""
    found: list[YarnStretch] = []
    at = 0
    for run in runs:
        for kind, same in groupby(kinds[at : at + run.count]):
            found.append(YarnStretch(run.yarn, sum(1 for _ in same), "" if kind == usual else kind))
        at += run.count
    return found


def stretches(symbols: str) -> Iterator[YarnStretch]:
    """Symbols in working order as stretches of one colour."""
    for symbol, run in groupby(symbols):
        yield YarnStretch(ColourSupply(symbol), sum(1 for _ in run))


def usual_stitch(chart: Chart, row: int) -> str:
    """`k`, or `p` on the wrong side: plain stocking stitch, smooth on the right side."""
    return "k" if chart.worked is Worked.ROUND or chart.side(row) is Side.RS else "p"
