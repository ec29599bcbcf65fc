"""How much is taken in. Beyond these a file is refused with a message instead of filling the memory."""

MOST_BYTES = 64 * 2**20  # of a file
MOST_PIXELS = 40_000_000  # of an image, 160 MB unpacked
MOST_UNPACKED = 200 * 2**20  # of a workbook, which is a zip archive
MOST_STITCHES, MOST_ROWS = 1500, 2000  # of the chart made
