"""Fineness of yarn: ISO 1144:2016, tex system. tex = grams a kilometre = 1000 / Nm; denier = 9 × tex."""

import pytest

from lintarsia.chart import Yarn
from lintarsia.chart.measure import Length, Mass
from lintarsia.planning.yarn import tex


@pytest.mark.parametrize("metres_in_100_g", [240, 400, 800])
def test_tex_of_a_ball(metres_in_100_g: float) -> None:
    yarn = Yarn("y", length=Length(metres_in_100_g / 2, "m"), mass=Mass(50, "g"))
    assert tex(yarn) == pytest.approx(100_000 / metres_in_100_g)
    assert tex(yarn) == pytest.approx(1000 / (metres_in_100_g / 100))
    assert tex(Yarn("y", length=Length(100, "m"))) is None


def test_a_strand_of_a_known_count() -> None:
    """Nm 2/28, two plies of 28 m to the gram: 14 m a gram, 71.4 tex, 643 denier (arithmetic of the definitions)."""
    found = tex(Yarn("y", length=Length(1400, "m"), mass=Mass(100, "g")))
    assert found == pytest.approx(71.43, abs=0.005)
    assert found is not None
    assert 9 * found == pytest.approx(642.9, abs=0.05)
