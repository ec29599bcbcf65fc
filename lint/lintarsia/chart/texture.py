"""Purl and garter stitches beside the colours: the layer `stitches` of a chart file, of the same shape as the grid.

`k` and `p` are what the fabric's right side shows, as on every printed chart; `g` is garter stitch, which is knitted in
every row and so shows a purl where a wrong-side row is knitted (in rounds every second one is purled instead); `.` is
stocking stitch, or no stitch where the grid has none. All common practice.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lintarsia.ground.values import dataclass

PLAIN, KNIT, PURL, GARTER = ".", "k", "p", "g"
LETTERS = PLAIN + KNIT + PURL + GARTER


@dataclass(frozen=True, eq=False)
class Texture:
    """`rows` is the layer as the file has it, bottom-up, each as wide as the grid. `purl` has shape (rows, width):
    whether a stitch shows a purl on the right side."""

    rows: tuple[str, ...]
    purl: NDArray[np.bool_]


def build_texture(rows: Sequence[str], purled: Sequence[bool]) -> Texture | None:
    """The layer from its rows, bottom-up and of one width. `purled` says of each row whether garter stitch shows its
    purls there. None where every stitch is plain."""
    lines = [np.array(list(row)) for row in rows]
    purl = np.array([(line == PURL) | ((line == GARTER) & own) for line, own in zip(lines, purled, strict=True)])
    if not purl.any():
        return None
    purl.setflags(write=False)
    return Texture(tuple(rows), purl)
