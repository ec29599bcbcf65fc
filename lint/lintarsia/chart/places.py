"""Where everything in a chart's file stands, and how its text can be edited to fit. Worked out by the reader."""

from collections.abc import Mapping
from dataclasses import field
from typing import Protocol

from lintarsia.ground.regions import NOWHERE, Edit, Region
from lintarsia.ground.values import dataclass

Path = tuple[str | int, ...]


class Editor(Protocol):
    """Edits that fit the file's own layout; None where the layout leaves a doubt about them."""

    def spelling(self, path: Path) -> str | None:
        """A key as the file spells it, quotes and all."""

    def taking_out(self, path: Path) -> Edit | None:
        """A mapping's entry deleted, unless it is the only one."""

    def adding(self, path: Path, *entries: str) -> Edit | None:
        """Entries put behind the last one of a mapping or a list."""

    def replacing(self, path: Path, value: str) -> Edit | None:
        """Another value for a key that has a plain one."""

    def putting_first(self, name: str, value: str) -> Edit | None:
        """A key put before all others of the file."""

    def section_before(self, name: str, lines: tuple[str, ...]) -> Edit | None:
        """Lines of their own put before a key of the file."""


@dataclass(frozen=True, slots=True)
class Places:
    """Where everything in the file stands, computed once by the reader.

    `keys` and `values` map a path such as ("colours", "B", "shade") to its region; `lines` holds the region of each
    grid row's text, bottom-up. `apart` has the columns of the stitches of a row, left to right, where they do not stand
    side by side. `editor` makes the edits of fixes; None where there is no text to edit.
    """

    keys: Mapping[Path, Region] = field(default_factory=dict)
    values: Mapping[Path, Region] = field(default_factory=dict)
    lines: tuple[Region, ...] = ()
    apart: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    editor: Editor | None = None

    def key(self, *path: str | int) -> Region:
        """The region of a key; of the nearest key above it where the file does not have it."""
        return self._nearest(self.keys, path)

    def value(self, *path: str | int) -> Region:
        """The region of a value; of the nearest one above it where the file does not have it."""
        return self._nearest(self.values, path)

    @staticmethod
    def _nearest(places: Mapping[Path, Region], path: Path) -> Region:
        while path:
            try:
                return places[path]
            except KeyError:
                path = path[:-1]
        return NOWHERE

    def row(self, row: int) -> Region:
        """The text of a knitter's row."""
        return self.lines[row - 1]

    def cells(self, row: int, first: int, last: int) -> Region:
        """Stitches `first` to `last` (knitter's numbering, right to left, inclusive) of a row. Where the row's text is
        too short to have them, the place before its first character."""
        line, start, _, end = self.lines[row - 1]
        if row in self.apart:
            columns = self.apart[row][::-1]
            leftmost = columns[min(last, len(columns)) - 1]
            return Region(line, leftmost, line, columns[first - 1] + 1 if first <= len(columns) else leftmost)
        return Region(line, max(start, end - last), line, max(start, end - first + 1))
