"""Real pixels: the handwritten digits that scikit-learn brings (1,797 of 8 × 8 pixels, 17 levels of grey).

E. Alpaydin, C. Kaynak, Optical Recognition of Handwritten Digits, UCI Machine Learning Repository (1998). Read from the
installed package, never copied here. Every digit is cut down to three shades (none, faint, full) and brought in.
"""

import io

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

from lintarsia.bringing import Wishes, bring
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.rules.shared.areas import label_areas

SHADES = ("#efe9dc", "#8090a8", "#27406b")
EVERY = 6  # every sixth digit is brought in, some 300


@pytest.fixture(scope="module")
def digits() -> NDArray[np.int64]:
    """(digit, row from the top, column): 0, 1 or 2."""
    from sklearn.datasets import load_digits  # a second and a half, which only the process with this test is to take

    images = load_digits().images
    assert images.shape == (1797, 8, 8)
    assert (images.min(), images.max()) == (0, 16)
    shades: NDArray[np.int64] = np.digitize(images, (5, 11))
    return shades


def png_of(levels: NDArray[np.int64]) -> bytes:
    parts = np.array([[int(shade[k : k + 2], 16) for k in (1, 3, 5)] for shade in SHADES], np.uint8)
    out = io.BytesIO()
    Image.fromarray(parts[levels]).save(out, "PNG")
    return out.getvalue()


def test_digits_become_charts_that_read_back_equal(digits: NDArray[np.int64]) -> None:
    for number, levels in enumerate(digits[::EVERY]):
        text = bring(f"digit-{number}.png", png_of(levels), Wishes(cell=(1, 1))).text
        reading = read_chart(f"digit-{number}.chart.yaml", text.encode())
        assert reading.chart is not None, reading.problems
        grid = reading.chart.grid
        shade = np.array([SHADES.index(reading.chart.colours[s].shade) for s in grid.symbols])
        assert np.array_equal(shade[grid.cells[::-1]], levels), number
        areas = sum(ndimage.label(levels == level)[1] for level in range(3))
        assert len(np.unique(label_areas(grid, corners=False, tube=False))) == areas, number
        plan = make_plan(reading.chart)
        assert plan.totals.stitches == 64
        assert sorted(run for supply in plan.supplies for run in supply.runs) == list(range(len(plan.runs))), number
