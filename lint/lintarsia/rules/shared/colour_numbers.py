"""The cells of several charts as numbers that mean the same colours, whatever symbols each chart has for them."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH
from lintarsia.telling.names import colour_name


def cells_by_name(chart: Chart, names: dict[str, int]) -> NDArray[np.int64]:
    """Shape (rows, width); -1 for no stitch. `names` has the number of each colour name, and takes in new ones."""
    codes = [names.setdefault(colour_name(chart, s).strip().casefold(), len(names)) for s in chart.grid.symbols]
    numbers: NDArray[np.int64] = np.array([*codes, -1], np.int64)[np.maximum(chart.grid.cells, NO_STITCH)]
    return numbers
