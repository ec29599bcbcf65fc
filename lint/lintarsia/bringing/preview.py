"""The picture as it came and the chart as it went, side by side: for a terminal in 24-bit colour, or as a PNG."""

import io

import numpy as np

from lintarsia.bringing.arrays import Bytes
from lintarsia.bringing.bring import Brought
from lintarsia.bringing.clear_parts import SOLID
from lintarsia.bringing.shade_space import bytes_of

STITCH_WIDE, GAP = 12, 24  # pixels of a PNG
PAPER = (255, 255, 255)
_RESET = "\x1b[0m"


def pictures(brought: Brought) -> list[Bytes]:
    """Before and after, shape (rows, stitches, 4), RGBA; after alone for what was no image."""
    table = {entry.symbol: (*bytes_of([entry.shade])[0].tolist(), 255) for entry in brought.key}
    after = np.array([[table.get(symbol, (0, 0, 0, 0)) for symbol in row] for row in brought.rows], np.uint8)
    return [after] if brought.before is None else [brought.before, after]


def in_terminal(brought: Brought, gauge: tuple[float, float], width: int) -> str:
    """Two rows of the picture to a line, in half blocks; beside each other where `width` columns have room for both."""
    shown = pictures(brought)
    wide = shown[-1].shape[1]
    beside = len(shown) * wide + 2 * (len(shown) - 1) <= width
    blocks = [_lines(_fitted(picture, gauge, width if not beside else wide)) for picture in shown]
    if beside:
        return "".join("  ".join(lines) + "\n" for lines in zip(*blocks, strict=True))
    return "\n".join("".join(f"{line}\n" for line in lines) for lines in blocks)


def as_png(brought: Brought, gauge: tuple[float, float]) -> bytes:
    """A PNG in the gauge's proportion."""
    from PIL import Image

    shown = [_on_paper(picture) for picture in pictures(brought)]
    high = max(1, round(STITCH_WIDE * gauge[0] / gauge[1]))
    large = [picture.repeat(high, axis=0).repeat(STITCH_WIDE, axis=1) for picture in shown]
    gap = np.full((large[0].shape[0], GAP, 3), PAPER, np.uint8)
    page = np.hstack([part for picture in large for part in (gap, picture)][1:])
    out = io.BytesIO()
    Image.fromarray(page).save(out, "PNG")
    return out.getvalue()


def _on_paper(picture: Bytes) -> Bytes:
    clear = picture[:, :, 3:] < SOLID
    return np.where(clear, np.array(PAPER, np.uint8), picture[:, :, :3])


def _fitted(picture: Bytes, gauge: tuple[float, float], width: int) -> Bytes:
    """At most `width` columns, in the gauge's proportion: a half block is about as high as it is wide."""
    rows, stitches = picture.shape[:2]
    columns = min(stitches, width)
    lines = max(1, round(rows * columns / stitches * gauge[0] / gauge[1]))
    down = (np.arange(lines) * rows // lines).astype(np.intp)
    along = (np.arange(columns) * stitches // columns).astype(np.intp)
    return picture[np.ix_(down, along)]


def _lines(picture: Bytes) -> list[str]:
    if len(picture) % 2:
        picture = np.concatenate([picture, np.zeros_like(picture[:1])])
    return [
        "".join(map(_cell, upper, lower)) + _RESET for upper, lower in zip(picture[::2], picture[1::2], strict=True)
    ]


def _cell(upper: Bytes, lower: Bytes) -> str:
    over, under = upper[3] >= SOLID, lower[3] >= SOLID
    if not over and not under:
        return f"{_RESET} "
    front, back = (upper, lower) if over else (lower, upper)
    ground = f"48;2;{_codes(back)}" if over and under else "49"
    return f"\x1b[38;2;{_codes(front)};{ground}m{'▀' if over else '▄'}"


def _codes(shade: Bytes) -> str:
    return ";".join(str(int(part)) for part in shade[:3])
