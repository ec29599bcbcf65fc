"""Halos: stitches whose shade lies between those of two neighbours, as soft edges and shrinking make them."""

import numpy as np

from lintarsia.bringing.arrays import Bools, Bytes, Floats, Index

# House values, found on pictures made by script (tests/bringing/dirty.py).
OFF = 0.16  # how far from the line between two shades, as a share of their distance, a mixture may lie
FEW = 0.005  # share of all stitches; so few may be mixtures of three shades, and lie further off
MIXED = 0.8  # share of a shade's stitches that have to be mixtures of what lies around them
AMID = 0.5  # share of them that lie near both; the middle of a small dot has lost the one that it was
SPREAD = 0.07  # of the mixtures' parts: soft edges mix in all parts, a drawn outline is one shade all along
BULK = 0.05  # share of a shade's stitches that may lie amid eight of their own: halos are thin
FEWEST = 4  # mixtures; of fewer nothing can be said
REACH = 2  # stitches to each side that may be what is mixed


def without_halos(colours: Bytes, which: Index, solid: Bools, shades: Bytes) -> Index:
    """`which` (rows, stitches) with every halo's stitches given to the nearer of the two shades that it mixes.

    `colours` are the stitches' own, shape (rows, stitches, 3). A shade is a halo if nearly all its stitches are thin
    mixtures of heavier shades that lie within two stitches, in ever other parts.
    """
    counts = np.bincount(which[solid], minlength=len(shades))
    majors: list[int] = []
    doubted: dict[int, tuple[Index, Index, Floats, Index]] = {}
    for shade in np.argsort(-counts, kind="stable"):
        if not counts[shade]:
            continue
        mixture = None
        if len(majors) > 1 and _thin((which == shade) & solid):
            mixture = _mixture(colours, which, (which == shade) & solid, shades, majors)
        if mixture is None:
            majors.append(int(shade))
        else:
            doubted[int(shade)] = mixture
    out = which.copy()
    for rows, columns, taken in _believed(doubted):
        out[rows, columns] = taken
    return out


def _thin(here: Bools) -> bool:
    return float((_around(here) == 9).sum()) <= BULK * float(here.sum())


def _around(here: Bools) -> Index:
    """How many of the nine stitches at and around each are `here`."""
    padded = np.pad(here, 1).astype(np.intp)
    high, wide = here.shape
    total: Index = sum(padded[y : y + high, x : x + wide] for y in range(3) for x in range(3))  # type: ignore[assignment]
    return total


def _mixture(
    colours: Bytes, which: Index, here: Bools, shades: Bytes, majors: list[int]
) -> tuple[Index, Index, Floats, Index] | None:
    """For the stitches `here`: rows, columns, part of the second shade, (first, second) shades; None for no mixture."""
    rows, columns = np.nonzero(here)
    near: dict[int, Bools] = {major: _within(which == major, rows, columns) for major in majors}
    own = colours[rows, columns].astype(np.float64)
    best, part, amid = np.full(len(rows), np.inf), np.zeros(len(rows)), np.zeros(len(rows), bool)
    pair = np.zeros((len(rows), 2), np.intp)
    few = len(rows) < FEW * here.size
    limit = 2 * OFF if few else OFF
    for at, one in enumerate(majors):
        for other in majors[at + 1 :]:
            line = shades[other].astype(np.float64) - shades[one]
            along = (own - shades[one]) @ line / max(1.0, line @ line)
            off = np.linalg.norm(own - shades[one] - along[:, None] * line, axis=1) / max(
                1.0, float(np.linalg.norm(line))
            )
            fits: Bools = (near[one] | near[other]) & (along > 0.04) & (along < 0.96) & (off < np.minimum(best, limit))
            best[fits], part[fits], pair[fits] = off[fits], along[fits], (one, other)
            amid[fits] = (near[one] & near[other])[fits]
    mixed = np.isfinite(best).mean() >= MIXED and (few or amid.mean() >= AMID)
    return (rows, columns, part, pair) if mixed else None


def _within(there: Bools, rows: Index, columns: Index) -> Bools:
    padded = np.pad(there, REACH)
    side = 2 * REACH + 1
    windows = np.lib.stride_tricks.sliding_window_view(padded, (side, side))
    found: Bools = np.asarray(windows[rows, columns].any(axis=(1, 2)))
    return found


def _believed(doubted: dict[int, tuple[Index, Index, Floats, Index]]) -> list[tuple[Index, Index, Index]]:
    """Rows, columns and the shade taken, if the picture has soft edges: its mixtures are then of many parts."""
    parts = np.concatenate([part for _, _, part, _ in doubted.values()] or [np.zeros(0)])
    if len(parts) < FEWEST or float(np.std(parts)) < SPREAD:
        return []
    return [(rows, columns, _taken(part, pair)) for rows, columns, part, pair in doubted.values()]


def _taken(part: Floats, pair: Index) -> Index:
    """The nearer of each pair; for the few that are no mixture (of no shade and itself) what the others mostly take."""
    taken = np.where(part < 0.5, pair[:, 0], pair[:, 1])
    mixed = pair[:, 0] != pair[:, 1]
    taken[~mixed] = _commonest(taken[mixed])
    return taken


def _commonest(values: Index) -> int:
    return int(np.bincount(values).argmax())
