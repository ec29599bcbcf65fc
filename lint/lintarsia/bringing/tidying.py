"""What `--tidy` does to a picture of one pixel a stitch, step by step, and how many stitches each step moved."""

from dataclasses import dataclass

import numpy as np

from lintarsia.bringing.arrays import Bools, Bytes, Index
from lintarsia.bringing.halos import without_halos
from lintarsia.bringing.merging import merged
from lintarsia.bringing.reduce import distinct, nearest
from lintarsia.bringing.smoothing import smooth_edges, without_specks
from lintarsia.bringing.straightening import evened
from lintarsia.telling.counts import count, stitch_count

FEWEST = 2  # shades: uneven light makes two of one, so that it shows where there are more


@dataclass(frozen=True, slots=True)
class Tidied:
    """Which of `shades` each stitch has (rows, stitches), whatever stands where there is none; and what was done."""

    which: Index
    shades: Bytes
    notes: tuple[str, ...]


def tidy(colours: Bytes, solid: Bools, *, most: int | None, largest: int, palette: Bytes | None = None) -> Tidied:
    """Near shades made one, halos, specks and rough edges removed. `colours` has shape (rows, stitches, 3).

    `most` is the number of colours wished for, `largest` the stitches of a speck (0: all are kept). With `palette`,
    what is left takes the nearest of its shades.
    """
    wished = None if palette is not None else most
    shades, of_solid = merged(colours[solid], wished)
    lit, shadow = evened(colours) if len(shades) > FEWEST and solid.all() else (colours, 0.0)
    if shadow and len((better := merged(lit[solid], wished))[0]) < len(shades):
        colours, (shades, of_solid) = lit, better
    else:
        shadow = 0.0
    which = np.full(solid.shape, -1, np.intp)
    which[solid] = of_solid
    notes = [f"light: {shadow:.0%} darker at one edge than at the other, evened out first" if shadow else ""]
    notes += [_merging(len(distinct(colours[solid])[0]), which, colours, shades, solid)]
    which, note = _step(which, without_halos(colours, which, solid, shades), "halos: {} given to the colour beside")
    notes.append(note)
    cleaned, kept = without_specks(colours, which, largest) if largest else (which, 0)
    which, note = _step(which, cleaned, "specks: {} taken out (--specks 0 keeps them)")
    notes += [note, f"specks: {stitch_count(kept)} kept, too many to be dirt" if kept else ""]
    smooth, kept = smooth_edges(which)
    which, note = _step(which, smooth, "edges: {} moved")
    notes += [note, f"edges: {stitch_count(kept)} left standing out, too many to be slips" if kept else ""]
    if palette is not None:
        which, shades = np.where(solid, nearest(shades, palette)[which], -1), palette
    left = len(np.unique(which[solid]))
    return Tidied(which, shades, (*filter(None, notes), f"tidied to {count(left, 'colour')}"))


def _merging(before: int, which: Index, colours: Bytes, shades: Bytes, solid: Bools) -> str:
    moved = int((shades[which[solid]] != colours[solid]).any(axis=1).sum())
    if before == len(shades):
        return ""
    return f"near shades: {before:,} made {len(shades):,}; {stitch_count(moved)} took another shade"


def _step(before: Index, after: Index, words: str) -> tuple[Index, str]:
    moved = int((before != after).sum())
    return after, words.format(stitch_count(moved)) if moved else ""
