"""Plain names for shades, and a letter for each name. The names are our own; nothing here stands for a yarn."""

from collections.abc import Iterable, Sequence
from functools import cache

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.shade_space import oklab_of

NAMES = {
    "Black": "#141414",
    "Charcoal": "#3b3b3d",
    "Slate": "#5a6570",
    "Grey": "#8a8a8a",
    "Silver": "#bfc2c4",
    "White": "#fbfbfb",
    "Bone": "#efe9dc",
    "Cream": "#f4e7c3",
    "Oat": "#ddcfb2",
    "Sand": "#c9ae84",
    "Camel": "#b08a58",
    "Brown": "#7a5233",
    "Bark": "#4b3422",
    "Rust": "#b4593a",
    "Brick": "#963d2f",
    "Red": "#c8202f",
    "Crimson": "#8c1830",
    "Rose": "#d9798c",
    "Pink": "#f2b6c1",
    "Coral": "#ee7a62",
    "Orange": "#ee8426",
    "Apricot": "#f4b583",
    "Gold": "#d9a531",
    "Yellow": "#f2d23c",
    "Straw": "#e9dc94",
    "Lime": "#a9c93a",
    "Leaf": "#5c9a3c",
    "Moss": "#76814a",
    "Green": "#2f7d46",
    "Fern": "#2f5a3c",
    "Mint": "#a9d9bd",
    "Teal": "#1f7f80",
    "Pine": "#1f4a45",
    "Aqua": "#6fc6cc",
    "Sky": "#9cc8e8",
    "Blue": "#2f6fc4",
    "Denim": "#44618c",
    "Navy": "#1f2f5c",
    "Indigo": "#3c3a86",
    "Lavender": "#b9aedd",
    "Violet": "#7a4fa8",
    "Plum": "#5c2a52",
    "Mauve": "#a9809c",
    "Magenta": "#c4307f",
}

SPARE = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
MOST_COLOURS = len(SPARE)
_DOUBTFUL = frozenset("IOl01")  # letters mistaken for one another at a glance; taken last


@cache
def _known() -> NDArray[np.float64]:
    return oklab_of(list(NAMES.values()))


def name_shades(shades: Sequence[str]) -> list[str]:
    """The nearest plain name for each shade; a name taken already gets a number behind it."""
    names = list(NAMES)
    known = _known()
    taken: dict[str, int] = {}
    out = []
    for place in oklab_of(shades):
        name = names[int(((known - place) ** 2).sum(axis=1).argmin())]
        taken[name] = taken.get(name, 0) + 1
        out.append(name if taken[name] == 1 else f"{name} {taken[name]}")
    return out


def letters_for(names: Sequence[str], taken: Iterable[str] = ()) -> list[str]:
    """A symbol for each name: its first letter where that is free, else another of its letters, else any.

    Raises ValueError where there are more names than symbols.
    """
    used = set(taken)
    if len(names) + len(used & set(SPARE)) > MOST_COLOURS:
        raise ValueError(f"there are {len(names)} colours; a chart file made here can hold {MOST_COLOURS}")
    out = []
    for name in names:
        own = [c for c in name.upper() if c in SPARE and c.isalpha()]
        wanted = own[:1] + [c for c in own[1:] if c not in _DOUBTFUL] + [c.lower() for c in own if c not in _DOUBTFUL]
        rest = [c for c in SPARE if c not in _DOUBTFUL] + [c for c in SPARE if c in _DOUBTFUL]
        symbol = next(c for c in wanted + rest if c not in used)
        used.add(symbol)
        out.append(symbol)
    return out
