"""`shaping` and `divide` of a piece in a pattern file: by row, for all sizes or for each by its name."""

import re
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from lintarsia.chart import Path, Shaping
from lintarsia.chart.shaping import Edge, Order, Parting
from lintarsia.pattern.model import Parted
from lintarsia.reading.shaping import build_shaping, rows_of

MOST_ROWS = 100_000  # of a piece
_ROWS = re.compile(r"[1-9][0-9]{0,5}(-[1-9][0-9]{0,5}(/[1-9])?)?")
_EDGES = tuple(Edge)
PARTING = ("by", "stitches", "sides", "at", "to")

Said = Mapping[str, Any]


def piece_shaping(said: Said | None, sizes: tuple[str, ...]) -> dict[str, dict[int, Shaping]]:
    """By size. What `faulty_rows` names is left out."""
    own = _by_size(said or {}, sizes)
    return {
        size: build_shaping({rows: made for rows, made in changes.items() if _good(rows, made)}, MOST_ROWS)
        for size, changes in own.items()
    }


def piece_divide(said: Said | None, sizes: tuple[str, ...]) -> dict[str, dict[int, Parted]]:
    """By size. What `faulty_partings` names is left out."""
    own = _by_size(said or {}, sizes, PARTING)
    return {
        size: {int(row): _parted(int(row), made) for row, made in sorted(partings.items()) if _parts(row, made)}
        for size, partings in own.items()
    }


def _parted(row: int, made: Said) -> Parted:
    numbers = {key: int(made[key]) for key in ("stitches", "at", "to") if made.get(key) is not None}
    return Parted(row, Parting(made["by"]), Order(made.get("sides") or Order.TOGETHER), **numbers)


def faulty_partings(said: Said | None, sizes: tuple[str, ...]) -> Iterator[Path]:
    """The keys of partings whose row is none, that do not say what becomes of the stitches, or how many there are."""
    by_size = said is not None and names_sizes(said, sizes, PARTING)
    for key, value in (said or {}).items():
        for row, made in (value or {}).items() if by_size else ((key, value),):
            if made is not None and not _parts(row, made):
                yield (key, row) if by_size else (key,)


def _parts(row: str, made: Any) -> bool:
    if not (row.isascii() and row.isdigit() and 0 < int(row) <= MOST_ROWS):
        return False
    if not _keyed(made, PARTING) or made.get("by") is None:
        return False
    slit = made["by"] == Parting.NOTHING
    return slit != bool(made.get("stitches")) and not (made.get("to") is not None and int(made["to"]) < int(row))


def names_sizes(said: Said, sizes: tuple[str, ...], known: Collection[str] = _EDGES) -> bool:
    """Whether the keys are sizes: all of them are, or what stands under one of them is rows."""
    return all(key in sizes for key in said) or any(not _keyed(made, known) for made in said.values() if made)


def faulty_rows(said: Said | None, sizes: tuple[str, ...]) -> Iterator[Path]:
    """The keys of rows that are none, that run backwards, or hold no edges."""
    by_size = said is not None and names_sizes(said, sizes)
    for key, value in (said or {}).items():
        for rows, made in (value or {}).items() if by_size else ((key, value),):
            if made is not None and not _good(rows, made):
                yield (key, rows) if by_size else (key,)


def _by_size(said: Said, sizes: tuple[str, ...], known: Collection[str] = _EDGES) -> dict[str, Said]:
    if not said:
        return {}
    if names_sizes(said, sizes, known):
        return {size: changes for size, changes in said.items() if size in sizes and isinstance(changes, dict)}
    return dict.fromkeys(sizes, said)


def _keyed(made: Any, known: Collection[str]) -> bool:
    return isinstance(made, dict) and all(key in known for key in made)


def rows_named(key: str) -> range:
    """The rows that a key names; none where it is no key for rows."""
    return rows_of(key) if _ROWS.fullmatch(key) else range(0)


def _good(rows: str, made: Any) -> bool:
    return bool(rows_named(rows) and _keyed(made, _EDGES))
