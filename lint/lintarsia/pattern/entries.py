"""Which entry of a pattern file shapes or parts a row of a piece in a size, and where it stands."""

from collections.abc import Iterator

from lintarsia.chart import Path
from lintarsia.ground.regions import Region
from lintarsia.pattern.model import Pattern
from lintarsia.pattern.shaping import rows_named


def entry_of(pattern: Pattern, section: str, piece: str, size: str, row: int, edge: str = "") -> Region:
    """The place of the entry of `section` (shaping or divide) for a row, of that with the edge where several are; the
    nearest place above where no entry names the row."""
    found = [path for path in _entries(pattern, section, piece, size) if row in rows_named(str(path[-1]))]
    for path in found:
        if (*path, edge) in pattern.places.keys:
            return pattern.places.key(*path)
    return pattern.places.key(*(found[0] if found else ("pieces", piece, section, size)))


def _entries(pattern: Pattern, section: str, piece: str, size: str) -> Iterator[Path]:
    """Under the name of the size, or under the section itself where it is said for all sizes at once."""
    above: Path = ("pieces", piece, section)
    if (*above, size) in pattern.places.keys:
        above = (*above, size)
    return (path for path in pattern.places.keys if path[:-1] == above)
