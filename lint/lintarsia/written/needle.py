"""What written words are set against: a chart's whole rows, and each side's part of a row that is parted."""

from functools import cache

from lintarsia.chart.sides import Sides, Stint
from lintarsia.written.neckwords import side_name
from lintarsia.written.order import (
    stint_kinds,
    stint_of,
    stint_stitches,
    stint_symbols,
    usual_stitch,
    worked_stitches,
    worked_symbols,
)
from lintarsia.written.spoken import Again, Item, Spoken, StitchWork

Place = tuple[int, str]  # a row, and the side of an opening that is meant: "right", "left", or "" for the whole row


class NeedleRows:
    """A chart's rows as words count them, by place."""

    def __init__(self, sides: Sides) -> None:
        self.sides, self.chart = sides, sides.chart
        self.symbols = cache(self._symbols)

    def there(self, place: Place) -> bool:
        """Whether the chart has such a row, and such a side in it."""
        row, half = place
        return row <= self.chart.grid.height and (not half or stint_of(self.sides, row, half) is not None)

    def name(self, place: Place) -> str:
        """`row 14 (WS)`; `row 84 (WS), right neck side`."""
        row, half = place
        name = self.chart.row_name(row)
        return f"{name}, {side_name(self.sides, self._stint(place)).lower()}" if half else name

    def _symbols(self, place: Place) -> str:
        """The symbols in working order."""
        row, half = place
        return stint_symbols(self.chart, self._stint(place)) if half else worked_symbols(self.chart, row)

    def stitches(self, place: Place) -> tuple[int, ...]:
        """The chart's numbers of the same stitches."""
        row, half = place
        return tuple(stint_stitches(self.chart, self._stint(place)) if half else worked_stitches(self.chart, row))

    def kinds(self, place: Place) -> str:
        """`k` or `p` of each stitch in working order; "" where the chart has no purl or garter stitches."""
        stints = [self._stint(place)] if place[1] else self.sides.stints(place[0])
        return "".join(stint_kinds(self.chart, stint) for stint in stints)

    def usual(self, row: int) -> str:
        return usual_stitch(self.chart, row)

    def below(self, place: Place) -> str:
        """The row below in this row's working order; "" where there is none of the same side."""
        row, half = place
        if row == 1 or not self.there((row - 1, half)):
            return ""
        below = self.symbols((row - 1, half))
        return below if self.chart.leftward(row) == self.chart.leftward(row - 1) else below[::-1]

    def waiting(self, place: Place, spoken: Spoken) -> int:
        """How many stitches hang on the needle before the row, as the words count them.

        Where the words name the stitches that shape the row they count what the row below left; where they only
        mention that it is shaped, or say nothing of it, they count what the row comes to.
        """
        row, half = place
        after = len(self.symbols(place))
        shaped = row in self.chart.shaping or row in self.chart.divide
        if not shaped or spoken.shaped or not _names_shaping(spoken):
            return after
        stints = [self._stint(place)] if half else list(self.sides.stints(row))
        return after + sum(map(_gone, stints))

    def _stint(self, place: Place) -> Stint:
        stint = stint_of(self.sides, *place)
        assert stint is not None
        return stint


def _gone(stint: Stint) -> int:
    """How many stitches more hang on the needle before a stint than after it."""
    between = stint.opening.stitches if stint.opening else 0
    return between - sum(change.net for change in stint.changes)


def _names_shaping(spoken: Spoken) -> bool:
    def shapes(item: Item) -> bool:
        if isinstance(item, StitchWork):
            return item.shapes
        return isinstance(item, Again) and any(map(shapes, item.items))

    return any(map(shapes, spoken.items))
