"""What several rules cite, each with title, year and place, written once.

A value that nobody looked up in print is a house value, or of a house list, and is told so: no source is named for it.
"""

MUNDEN = (
    "D. L. Munden, “The Geometry and Dimensional Properties of Plain-Knit Fabrics”, J. Textile Institute 50 (1959) T448"
)
LOOP_SOURCES = (
    f"{MUNDEN}: the yarn in a stitch goes by its width",
    "4.1 times the width, as in washed hand-knitting: a house value, after his factors",
)
YARN_WEIGHTS = "“Standard Yarn Weight System”, Craft Yarn Council, craftyarncouncil.com, as read in 2026"
CHART_DIRECTIONS = "“Chart masterclass”, The Knitter, 2016"
FLOATS_TACKED = "“Tacking Down Long Floats”, Interweave, interweave.com, as read in 2026"
FLOATS_TRAPPED = "“Trapping Floats”, Purl Soho, purlsoho.com, as read in 2026"
TOURNIQUETS = "house list: case reports of thread and hair tourniquets in infants, by Uygur et al. among others"
