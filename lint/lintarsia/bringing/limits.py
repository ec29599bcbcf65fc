"""How much is taken in. Beyond these a file is refused with a message instead of filling the memory."""

from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count, stitch_count

MOST_BYTES = 64 * 2**20  # of a file
MOST_PIXELS = 40_000_000  # of an image, 160 MB unpacked
MOST_UNPACKED = 200 * 2**20  # of a workbook, which is a zip archive
MOST_STITCHES, MOST_ROWS = 1500, 2000  # of the chart made


def refuse_large(stitches: int, rows: int, most: int) -> None:
    """Raises Trouble for a chart of more stitches than the settings would let any command read."""
    if stitches * rows > most:
        size = f"{stitch_count(stitches)} by {count(rows, 'row')}, {stitches * rows:,} in all"
        raise Trouble(f"that is {size}; at most {most:,} are read (max-stitches in the settings allows more)")
