"""Many colours brought down to a few: by weight and likeness, or to a given set of shades."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.arrays import Bytes, Floats, Index
from lintarsia.bringing.shade_space import oklab

ALIKE = 0.01  # in OKLab, about half of what the eye just tells apart
ROUNDS = 24  # of improving; it has settled long before on any picture tried


def distinct(pixels: Bytes) -> tuple[Bytes, Index, NDArray[np.intp]]:
    """The colours of pixels of shape (n, 3): (colours, which of them each pixel has, how many pixels each has)."""
    packed = pixels.astype(np.uint32) @ np.array([65536, 256, 1], np.uint32)
    values, which, counts = np.unique(packed, return_inverse=True, return_counts=True)
    colours = np.stack([values >> 16, values >> 8 & 255, values & 255], axis=1).astype(np.uint8)
    return colours, which.reshape(-1), counts


def nearest(colours: Bytes, shades: Bytes) -> Index:
    """For each colour the index of the shade that is most like it."""
    places, wanted = oklab(colours), oklab(shades)
    found = np.empty(len(colours), np.intp)
    step = max(1, 4_000_000 // max(1, len(wanted)))  # bounds the table of distances
    for start in range(0, len(places), step):
        part = places[start : start + step]
        found[start : start + step] = ((part[:, None, :] - wanted[None]) ** 2).sum(axis=2).argmin(axis=1)
    return found


def alike_joined(colours: Bytes, counts: NDArray[np.intp]) -> tuple[Bytes, NDArray[np.intp]]:
    """Colours that no eye tells apart, as the commonest of them; at most 4,096 of the others are looked at."""
    order = np.argsort(-counts, kind="stable")
    colours, counts = colours[order], counts[order].copy()
    places = oklab(colours)
    kept = np.ones(len(colours), bool)
    for at in range(min(len(colours), 4096)):
        if kept[at]:
            near = kept & (((places - places[at]) ** 2).sum(axis=1) < ALIKE**2)
            near[: at + 1] = False
            counts[at] += counts[near].sum()
            kept &= ~near
    return colours[kept], counts[kept]


def few(colours: Bytes, counts: NDArray[np.intp], most: int) -> Bytes:
    """At most `most` shades that stand best for the weighted colours; deterministic.

    Weighted k-means in OKLab. It starts from the heaviest colour and then, again and again, from the colour that is
    worst served (distance times weight), so that a small bright motif is not lost in a large ground. Each group is
    then shown by its own heaviest colour, if that has a third of the group, so that flat artwork keeps its true
    shades; by its mean otherwise.
    """
    if len(colours) <= most:
        return colours
    places, weights = oklab(colours), counts.astype(np.float64)
    centres = places[_seeds(places, weights, most)]
    groups = np.zeros(len(places), np.intp)
    for _ in range(ROUNDS):
        latest = _assign(places, centres)
        if (latest == groups).all():
            break
        groups = latest
        for number in range(len(centres)):
            here = groups == number
            if here.any():
                centres[number] = np.average(places[here], axis=0, weights=weights[here])
    groups = _assign(places, centres)
    return np.array([shown(colours[groups == n], counts[groups == n]) for n in np.unique(groups)], np.uint8)


def _seeds(places: Floats, weights: Floats, most: int) -> list[int]:
    chosen = [int(weights.argmax())]
    served = ((places - places[chosen[0]]) ** 2).sum(axis=1)
    while len(chosen) < most:
        worst = int((served * np.sqrt(weights)).argmax())
        if served[worst] == 0:
            break
        chosen.append(worst)
        served = np.minimum(served, ((places - places[worst]) ** 2).sum(axis=1))
    return chosen


def _assign(places: Floats, centres: Floats) -> Index:
    best = np.zeros(len(places), np.intp)
    least = np.full(len(places), np.inf)
    for number, centre in enumerate(centres):
        far = ((places - centre) ** 2).sum(axis=1)
        closer = far < least
        best[closer], least[closer] = number, far[closer]
    return best


def shown(colours: Bytes, counts: NDArray[np.intp]) -> Bytes:
    heaviest = counts.argmax()
    own: Bytes = colours[heaviest]
    if counts[heaviest] * 3 >= counts.sum():
        return own
    mean: Bytes = np.rint(np.average(colours.astype(np.float64), axis=0, weights=counts)).astype(np.uint8)
    return mean
