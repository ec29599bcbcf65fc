"""The `draw` fixture: charts drawn in a test."""

from collections.abc import Callable

import pytest
from charts_drawn import draw_chart

from lintarsia.chart import Chart


@pytest.fixture
def draw() -> Callable[..., Chart]:
    return draw_chart
