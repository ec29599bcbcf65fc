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
    """The piece in a size, with gauge, colour and yarn of `base`; None where its stitches or rows are not said, or are
    more than anybody knits, or come to more than `most` stitches. A stitch of a rib takes `rib` times the yarn of a
    plain one.
    """
    wide, high = piece.cast_on.get(size), piece.rows.get(size)
    if not piece.colour or not wide or not high or wide * high > most:
        return None
    own = base.colours.get(piece.colour)
    colours = base.colours if own is None else {piece.colour: own}  # what other pieces are worked in is not its own
    made = replace(
        base,
        path=path,
        colours=colours,
        yarns={name: yarn for name, yarn in base.yarns.items() if own is None or name == own.yarn},
        gauge=replace(base.gauge, share=rib) if pulls_in(piece.stitch) else base.gauge,
        grid=build_grid([piece.colour * wide] * high, tuple(colours)),
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
