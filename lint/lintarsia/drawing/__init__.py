"""Drawings of a chart as SVG text: pure functions, one geometry for all of them.

Where several drawings stand on one page, give each call its own `prefix`: ids must be unique there.
"""

from lintarsia.drawing.chart import chart_geometry, chart_svg, describe
from lintarsia.drawing.fabric import fabric_svg
from lintarsia.drawing.holders import HOLDERS, holder_svg
from lintarsia.drawing.layers import LAYERS
from lintarsia.drawing.line_up import line_up_svg
from lintarsia.drawing.mark import mark_svg
from lintarsia.drawing.nestedsizes import nested_svg
from lintarsia.drawing.schematic import schematic_svg
from lintarsia.drawing.sheet_pages import sheets
from lintarsia.drawing.sheets import PAPERS
from lintarsia.drawing.techniques import TECHNIQUES
from lintarsia.drawing.theme import THEME_CSS
from lintarsia.drawing.yarn_paths import yarn_paths_svg

__all__ = [
    "HOLDERS",
    "LAYERS",
    "PAPERS",
    "TECHNIQUES",
    "THEME_CSS",
    "chart_geometry",
    "chart_svg",
    "describe",
    "fabric_svg",
    "holder_svg",
    "line_up_svg",
    "mark_svg",
    "nested_svg",
    "schematic_svg",
    "sheets",
    "yarn_paths_svg",
]
