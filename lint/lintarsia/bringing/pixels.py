"""An image made into rows and a key: cells, colours, letters."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.arrays import Bytes
from lintarsia.bringing.charttext import KeyEntry
from lintarsia.bringing.clear_parts import SOLID, clear_parts
from lintarsia.bringing.limits import refuse_large
from lintarsia.bringing.picture import open_image, to_grid
from lintarsia.bringing.reduce import alike_joined, distinct, few, nearest
from lintarsia.bringing.shade_space import bytes_of, shade_text
from lintarsia.bringing.shadenames import MOST_COLOURS, letters_for, name_shades
from lintarsia.bringing.tidying import tidy
from lintarsia.bringing.wishes import Wishes
from lintarsia.ground.trouble import Trouble

KEEP_ALL = 24  # so many colours are kept as they are when the user names no number
USUAL = 8  # and to so many they are reduced where there are more


def image_chart(name: str, data: bytes, wishes: Wishes) -> tuple[list[str], list[KeyEntry], tuple[str, ...], Bytes]:
    """Rows from the top down, key with the commonest colour first, notes, and the pixels, one a stitch."""
    grid = to_grid(
        name,
        open_image(name, data),
        stitches=wishes.stitches,
        cell=wishes.cell,
        gauge=(wishes.gauge[0], wishes.gauge[1]),
    )
    refuse_large(grid.colours.shape[1], grid.colours.shape[0], wishes.most_stitches)
    pixels, clear_notes = clear_parts(name, grid.colours, shade=wishes.clear, fill=wishes.tidy)
    solid, colours = pixels[:, :, 3] >= SOLID, pixels[:, :, :3]
    if wishes.tidy:
        palette = _palette(wishes) if wishes.palette else None
        most = wishes.most_colours or KEEP_ALL
        tidied = tidy(colours, solid, most=most, largest=wishes.specks, palette=palette)
        which, shades, said = tidied.which, tidied.shades, list(tidied.notes)
    else:
        shades, said = _shades(colours[solid], wishes)
        which = _dithered(colours, shades) if wishes.dither else _plain(colours, shades)
    notes = (*grid.notes, *clear_notes, *said)
    return *_lettered(name, which, solid, shades, wishes), notes, grid.colours


def _palette(wishes: Wishes) -> Bytes:
    return np.unique(bytes_of([s.shade for s in wishes.palette]), axis=0)


def _shades(pixels: Bytes, wishes: Wishes) -> tuple[Bytes, list[str]]:
    """The shades to use, and what was done to the image's own."""
    colours, _, counts = distinct(pixels)
    if wishes.stitches:
        colours, counts = alike_joined(colours, counts)  # the mean of equal pixels is not always quite the same
    most = wishes.most_colours or (len(colours) if len(colours) <= KEEP_ALL else USUAL)
    notes = []
    if len(colours) > most:
        way_out = "" if wishes.most_colours else " (see --colours and --tidy)"
        notes.append(f"{len(colours):,} colours reduced to {most}{way_out}")
    if wishes.palette:
        palette = _palette(wishes)
        if wishes.dither and not wishes.most_colours:
            return palette, notes  # each of them is there to be mixed
        used = nearest(few(colours, counts, most), palette)
        return palette[np.unique(used)], notes
    if most > MOST_COLOURS:
        raise Trouble(f"{most} colours are more than a chart file made here can hold ({MOST_COLOURS})")
    return few(colours, counts, most), notes


def _plain(colours: Bytes, shades: Bytes) -> NDArray[np.intp]:
    own, which, _ = distinct(colours.reshape(-1, 3))
    return nearest(own, shades)[which].reshape(colours.shape[:2])


def _dithered(colours: Bytes, shades: Bytes) -> NDArray[np.intp]:
    """Floyd-Steinberg: each stitch's error is handed on to its neighbours. Rarely kind to a knitter; off by default."""
    from PIL import Image

    palette = Image.new("P", (1, 1))
    palette.putpalette(np.concatenate([shades, np.repeat(shades[:1], 256 - len(shades), axis=0)]).tobytes())
    image = Image.fromarray(np.ascontiguousarray(colours)).quantize(palette=palette, dither=Image.Dither.FLOYDSTEINBERG)
    chosen = np.asarray(image).astype(np.intp)
    return np.where(chosen < len(shades), chosen, 0)


def _lettered(
    name: str, which: NDArray[np.intp], solid: NDArray[np.bool_], shades: Bytes, wishes: Wishes
) -> tuple[list[str], list[KeyEntry]]:
    counts = np.bincount(which[solid], minlength=len(shades))
    order = [int(k) for k in np.argsort(-counts, kind="stable") if counts[k]]
    texts = [shade_text(shades[k]) for k in order]
    known = {s.shade: s for s in wishes.palette}
    names = [known[t].name if t in known else plain for t, plain in zip(texts, name_shades(texts), strict=True)]
    own = {at: known[t].symbol for at, t in enumerate(texts) if t in known and known[t].symbol}
    rest = [at for at in range(len(order)) if at not in own]
    try:
        letters = dict(zip(rest, letters_for([names[at] for at in rest], own.values()), strict=True))
    except ValueError as failure:
        raise Trouble(f"{name!r}: {failure}") from None
    symbols = [own.get(at) or letters[at] for at in range(len(order))]
    table = np.full(len(shades) + 1, ".", dtype="<U1")
    table[order] = symbols
    cells = table[np.where(solid, which, len(shades))]
    rows = ["".join(line) for line in cells.tolist()]
    return rows, [KeyEntry(s, n, t) for s, n, t in zip(symbols, names, texts, strict=True)]
