"""A piece without a chart (a back, a rib, a border): a chart of its stitches and rows in one colour."""

from dataclasses import replace

from lintarsia.chart import HOUSE_RECKONING, Chart, Places
from lintarsia.chart.grid import build_grid
from lintarsia.chart.texture import build_texture
from lintarsia.ground.regions import NOWHERE
from lintarsia.pattern.laying import MOST_CELLS
from lintarsia.pattern.model import Piece
from lintarsia.pattern.stitch import pulls_in, stitch_rows


def plain_chart(
    base: Chart, piece: Piece, size: str, path: str, rib: float = HOUSE_RECKONING.rib, most: int = MOST_CELLS
) -> Chart | None:
    """The piece in a size, with gauge, key and yarns of `base`; None where its stitches or rows are not said, or are
    more than anybody knits, or come to more than `most` stitches. A stitch of a rib takes `rib` times the yarn of a
    plain one.
    """
    wide, high = piece.cast_on.get(size), piece.rows.get(size)
    if not piece.colour or not wide or not high or wide * high > most:
        return None
    made = replace(
        base,
        path=path,
        gauge=replace(base.gauge, share=rib) if pulls_in(piece.stitch) else base.gauge,
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
    rows = stitch_rows(piece.stitch, wide, high)
    return replace(made, texture=build_texture(rows, made.garter_purls)) if rows else made
