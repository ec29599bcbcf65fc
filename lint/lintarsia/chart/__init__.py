"""A chart as its file states it: frozen, checked, in the trade's terms. Its names are promised to rules."""

from lintarsia.chart.gauge import NARROWEST_MM, WIDEST_MM, FloatGauge, Gauge
from lintarsia.chart.limits import HOUSE_HOLDERS, HOUSE_LIMITS, Bounds, Holders, Limits
from lintarsia.chart.model import (
    Chart,
    Colour,
    DuplicateStitch,
    Repeat,
    StatedSupplies,
    StatedSupply,
    Suppression,
    WrittenEntry,
    Yarn,
)
from lintarsia.chart.places import Editor, Path, Places
from lintarsia.chart.reckoning import HOUSE_RECKONING, Reckoning
from lintarsia.chart.shaping import Decreases, Divide, Shaping
from lintarsia.chart.ways import Begins, Ends, Side, Symmetry, Technique, Wearer, Worked

__all__ = [
    "HOUSE_HOLDERS",
    "HOUSE_LIMITS",
    "HOUSE_RECKONING",
    "NARROWEST_MM",
    "WIDEST_MM",
    "Begins",
    "Bounds",
    "Chart",
    "Colour",
    "Decreases",
    "Divide",
    "DuplicateStitch",
    "Editor",
    "Ends",
    "FloatGauge",
    "Gauge",
    "Holders",
    "Limits",
    "Path",
    "Places",
    "Reckoning",
    "Repeat",
    "Shaping",
    "Side",
    "StatedSupplies",
    "StatedSupply",
    "Suppression",
    "Symmetry",
    "Technique",
    "Wearer",
    "Worked",
    "WrittenEntry",
    "Yarn",
]
