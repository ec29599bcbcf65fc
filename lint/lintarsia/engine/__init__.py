"""Charts × rules → results: finds the charts, checks each, weighs suppressions, spreads many over the cores."""

from lintarsia.engine.checking import Checked, check_chart
from lintarsia.engine.running import check_paths

__all__ = ["Checked", "check_chart", "check_paths"]
