"""Drawings of a chart as SVG text: pure functions, one geometry for all of them."""

from lintarsia.publishing.drawing.chart import chart_geometry, chart_svg, describe
from lintarsia.publishing.drawing.fabric import fabric_svg
from lintarsia.publishing.drawing.layers import LAYERS
from lintarsia.publishing.drawing.yarn_paths import yarn_paths_svg

__all__ = ["LAYERS", "chart_geometry", "chart_svg", "describe", "fabric_svg", "yarn_paths_svg"]
