"""Near shades made one: what a JPEG, a scanner or a soft brush makes of one colour is gathered again."""

import numpy as np

from lintarsia.bringing.arrays import Bytes, Index
from lintarsia.bringing.reduce import distinct, few, nearest, shown
from lintarsia.bringing.shade_space import toned

NEAR = (
    0.065  # in OKLab with its toe: three times what the eye just tells apart; Bone and Oat of our names are 0.08 apart
)
FLAT_ART = 24  # shades: with more, a picture is noisy
RARE = 0.005  # share of all stitches
AT_FIRST = 64  # groups that a picture of many colours is brought down to before they are looked at in pairs


def merged(pixels: Bytes, most: int | None) -> tuple[Bytes, Index]:
    """The shades that are left of pixels of shape (n, 3), and which of them each pixel has.

    The two nearest groups become one until the nearest are more than NEAR apart, and until at most `most` are left. In
    a noisy picture a rare group may be twice as far: there, colour bleeds into a few stitches beside an edge. A group
    is where its pixels are on average, so that a light group does not pull a heavy one across. A shade is its
    group's commonest colour where that has a third of it, else the mean.
    """
    colours, which, counts = distinct(pixels)
    group = nearest(colours, few(colours, counts, AT_FIRST))
    places = toned(colours)
    weights = np.bincount(group, counts).astype(np.float64)
    sums = np.stack([np.bincount(group, counts * places[:, k]) for k in range(3)], axis=1)
    centres = sums / np.maximum(weights, 1)[:, None]
    noisy = len(colours) > FLAT_ART
    rare = RARE * counts.sum() if noisy else 0.0
    while (weights > 0).sum() > 1:
        far = np.sqrt(((centres[:, None] - centres[None]) ** 2).sum(axis=2))
        far[weights == 0] = far[:, weights == 0] = np.inf
        np.fill_diagonal(far, np.inf)
        lighter = np.minimum(weights[:, None], weights[None])
        eased = np.where(lighter < rare, far / 2, far)
        one, other = np.unravel_index(int(eased.argmin()), far.shape)
        if eased[one, other] > NEAR and (most is None or (weights > 0).sum() <= most):
            break
        both = weights[one] + weights[other]
        centres[one] = (centres[one] * weights[one] + centres[other] * weights[other]) / both
        weights[one], weights[other] = both, 0
        group[group == other] = one
    left = np.unique(group)
    shades = np.array([shown(colours[group == n], counts[group == n]) for n in left], np.uint8)
    return shades, np.searchsorted(left, group)[which]
