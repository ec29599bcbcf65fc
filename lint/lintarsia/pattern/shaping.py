"""`shaping` of a piece in a pattern file: changes at its edges by row, for all sizes or for each by its name."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from lintarsia.chart import Path, Shaping
from lintarsia.reading.shaping import build_shaping, rows_of

MOST_ROWS = 100_000  # of a piece
_ROWS = re.compile(r"[1-9][0-9]{0,5}(-[1-9][0-9]{0,5}(/[1-9])?)?")
_EDGES = ("left", "right")

Said = Mapping[str, Any]


def piece_shaping(said: Said | None, sizes: tuple[str, ...]) -> dict[str, dict[int, Shaping]]:
    """By size. What `faulty_rows` names is left out."""
    own = _by_size(said or {}, sizes)
    return {
        size: build_shaping({rows: made for rows, made in changes.items() if _good(rows, made)}, MOST_ROWS)
        for size, changes in own.items()
    }


def names_sizes(said: Said, sizes: tuple[str, ...]) -> bool:
    """Whether the keys are sizes: all of them are, or what stands under one of them is rows."""
    return all(key in sizes for key in said) or any(not _edged(changes) for changes in said.values() if changes)


def faulty_rows(said: Said | None, sizes: tuple[str, ...]) -> Iterator[Path]:
    """The keys of rows that are none, that run backwards, or hold no edges."""
    by_size = said is not None and names_sizes(said, sizes)
    for key, value in (said or {}).items():
        for rows, made in (value or {}).items() if by_size else ((key, value),):
            if made is not None and not _good(rows, made):
                yield (key, rows) if by_size else (key,)


def _by_size(said: Said, sizes: tuple[str, ...]) -> dict[str, Said]:
    if not said:
        return {}
    if names_sizes(said, sizes):
        return {size: changes for size, changes in said.items() if size in sizes and isinstance(changes, dict)}
    return dict.fromkeys(sizes, said)


def _edged(changes: Any) -> bool:
    return isinstance(changes, dict) and all(edge in _EDGES for edge in changes)


def _good(rows: str, made: Any) -> bool:
    return bool(_ROWS.fullmatch(rows) and rows_of(rows) and _edged(made))
