"""A piece without a chart (a back, a rib, a border): a chart of its stitches and rows in one colour."""

from dataclasses import replace

from lintarsia.chart import Chart, Places
from lintarsia.chart.grid import build_grid
from lintarsia.ground.regions import NOWHERE
from lintarsia.pattern.laying import MOST_CELLS
from lintarsia.pattern.model import Piece


def plain_chart(base: Chart, piece: Piece, size: str, path: str, most: int = MOST_CELLS) -> Chart | None:
    """The piece in a size, with gauge, key and yarns of `base`; None where its stitches or rows are not said, or are
    more than anybody knits, or come to more than `most` stitches. A rib is reckoned as plain knitting: a house value.
    """
    wide, high = piece.cast_on.get(size), piece.rows.get(size)
    if not piece.colour or not wide or not high or wide * high > most:
        return None
    return replace(
        base,
        path=path,
        grid=build_grid([piece.colour * wide] * high, tuple(base.colours)),
        worked=piece.worked or base.worked,
        repeat=None,
        shaping={},
        divide={},
        duplicate=(),
        supplies=None,
        written={},
        written_entries=(),
        symmetry=(),
        texture=None,
        suppressions=(),
        places=Places(lines=(NOWHERE,) * high),
    )
