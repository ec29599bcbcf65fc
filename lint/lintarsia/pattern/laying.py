"""A piece laid out in full: its chart's repeats worked out across and up, plain knitting around a motif, mirrored."""

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from lintarsia.chart import Chart, Divide, Places, Shaping, Wearer, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.texture import PLAIN, Texture, build_texture
from lintarsia.ground.regions import NOWHERE
from lintarsia.ground.values import dataclass
from lintarsia.pattern.carried import binds, carried, turned
from lintarsia.pattern.fit import Fit, Motif, fit_of, motif_of
from lintarsia.pattern.model import Parted, Piece
from lintarsia.pattern.pieceoutline import Outline, divides, mirrored_divides, outline_of
from lintarsia.pattern.weave import PLAIN as STOCKING
from lintarsia.pattern.weave import Weave, weave_of, woven_rows

MOST_CELLS = 2**20  # of one piece: a thousand stitches and as many rows


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece as one chart, bottom to top. `cast_on` is before row 1; `widest` is its widest row, in stitches. `weave`
    says where in the chart, `source`, each of its stitches comes from. `across` are the columns that its own shaping
    begins with."""

    chart: Chart
    fit: Fit
    cast_on: int
    widest: int
    rows: int
    motif: Motif | None
    weave: Weave
    source: Chart
    across: int


def lay_out(
    chart: Chart,
    piece: Piece,
    size: str,
    *,
    mirrored: bool = False,
    title: str = "",
    wearer: Wearer | None = None,
    most: int = MOST_CELLS,
) -> Laid | None:
    """The piece in full; None where that would be larger than anything knitted, or have more than `most` stitches.

    `wearer` is the pattern's, for a chart that names none.
    """
    fit = fit_of(chart, piece, size)
    motif = motif_of(fit, piece, size)
    across = chart.grid.width * max(1, fit.repeats) + (motif.left + motif.right if motif else 0)
    up = chart.grid.height * max(1, fit.row_repeats) + (motif.below + motif.above if motif else 0)
    if across * up > most:
        return None
    weave = weave_of(chart, fit, motif, piece.plain or piece.colour or "", mirrored=mirrored)
    across = len(weave.columns)
    if size in piece.shaping or size in piece.divide:
        own = Own(piece.shaping.get(size, {}), piece.divide.get(size, {}))
        outline = outline_of(own.shaping, across, len(weave.rows), own.divide)
        divide = divides(outline, own.divide)
        if mirrored:
            divide, outline = mirrored_divides(outline, divide), outline.mirrored
        if (across + outline.left + outline.right) * len(weave.rows) > most:
            return None
        weave = weave.widened(outline.left, outline.right, chart)
        whole = _whole(replace(chart, shaping={}, divide={}), weave, title or chart.title, wearer)
        whole = _shaped(whole, own, outline, divide, mirrored=mirrored)
    else:
        whole = _whole(chart, weave, title or chart.title, wearer)
    return Laid(
        chart=whole,
        fit=fit,
        cast_on=fit.cast_on if fit.cast_on is not None else fit.stitches,
        widest=max(whole.grid.stitches(row) for row in range(1, whole.grid.height + 1)),
        rows=fit.rows if fit.rows is not None else whole.grid.height,
        motif=motif,
        weave=weave,
        source=chart,
        across=across,
    )


class Own(NamedTuple):
    """What a piece says of its outline in a size, in place of its chart."""

    shaping: Mapping[int, Shaping]
    divide: Mapping[int, Parted]


def _shaped(whole: Chart, own: Own, outline: Outline, divide: Mapping[int, Divide], *, mirrored: bool) -> Chart:
    """The piece within its outline, and begun where its edges can be bound off."""
    made = {row: turned(m) if mirrored else m for row, m in own.shaping.items() if row <= whole.grid.height}
    grid = build_grid(outline.cut(list(whole.grid.rows)), tuple(whole.colours))
    bound = mirrored and whole.worked is not Worked.ROUND and (divide or binds(made.values()))
    first = whole.first_row.other if bound else whole.first_row
    shaped = replace(whole, grid=grid, shaping=made, divide=divide, first_row=first)
    if whole.texture is None:
        return shaped
    return replace(shaped, texture=build_texture(outline.cut(list(whole.texture.rows)), shaped.garter_purls))


def _whole(chart: Chart, weave: Weave, title: str, wearer: Wearer | None) -> Chart:
    """The chart of the piece. The file's own words and accepted results are not the piece's."""
    rows = woven_rows(chart, weave)
    own = carried(chart, weave, rows)
    laid = replace(
        chart,
        title=title,
        grid=build_grid(rows, tuple(chart.colours)),
        first_row=own.first_row,
        repeat=None,
        shaping=own.shaping,
        divide=own.divide,
        duplicate=own.duplicate,
        wearer=chart.wearer or wearer,
        supplies=None,
        texture=None,
        written={},
        written_sides={},
        written_entries=(),
        symmetry=(),
        suppressions=(),
        places=Places(lines=(NOWHERE,) * len(rows)),
    )
    return laid if chart.texture is None else replace(laid, texture=_texture(chart.texture, weave, laid))


def _texture(texture: Texture, weave: Weave, laid: Chart) -> Texture | None:
    """The purl and garter stitches of the piece; plain knitting around a motif is stocking stitch."""
    woven = ["".join([row[c] if c != STOCKING else PLAIN for c in weave.columns]) for row in texture.rows]
    line = PLAIN * len(weave.columns)
    return build_texture([line if at == STOCKING else woven[at] for at in weave.rows], laid.garter_purls)
