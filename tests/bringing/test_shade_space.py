"""Shades as points, against what is published: OKLab of the primaries of sRGB (as in CSS Color Module Level 4, to four
digits, from memory), sRGB's curve (IEC 61966-2-1), and the inverse of the toe (Bjorn Ottosson, "Okhsv and Okhsl", 2021,
the function `toe_inv`).
"""

import numpy as np
import pytest

from lintarsia.bringing.shade_space import bytes_of, oklab, oklab_of, shade_text, toned

GREYS = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)


@pytest.mark.parametrize(
    ("shade", "place"),
    [
        ("#ff0000", (0.6280, 0.2249, 0.1258)),
        ("#00ff00", (0.8664, -0.2339, 0.1795)),
        ("#0000ff", (0.4520, -0.0325, -0.3115)),
        ("#ffffff", (1.0, 0.0, 0.0)),
        ("#000000", (0.0, 0.0, 0.0)),
    ],
)
def test_the_primaries_lie_where_they_are_published(shade: str, place: tuple[float, float, float]) -> None:
    assert oklab_of([shade])[0] == pytest.approx(place, abs=2e-4)


def test_greys_are_the_cube_root_of_their_light() -> None:
    """The curve is straight up to 0.04045, which is between 10 and 11 of 255."""
    part = np.arange(256) / 255
    light = np.where(np.arange(256) <= 10, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)
    assert oklab(GREYS)[:, 0] == pytest.approx(np.cbrt(light), abs=1e-6)
    assert np.abs(oklab(GREYS)[:, 1:]).max() < 1e-4


def test_the_toe_is_undone_by_its_inverse() -> None:
    k1, k2 = 0.206, 0.03
    k3 = (1 + k1) / (1 + k2)
    bent = toned(GREYS)
    assert (bent[:, 0] ** 2 + k1 * bent[:, 0]) / (k3 * (bent[:, 0] + k2)) == pytest.approx(oklab(GREYS)[:, 0], abs=1e-9)
    assert bent[[0, 255], 0] == pytest.approx([0.0, 1.0], abs=1e-6)
    assert (bent[:, 1:] == oklab(GREYS)[:, 1:]).all()


def test_shades_as_texts_and_back() -> None:
    texts = ["#0a1b2c", "#fffe00", "#000000"]
    assert [shade_text(colour) for colour in bytes_of(texts)] == texts
    assert bytes_of(texts)[0].tolist() == [10, 27, 44]
    assert bytes_of([]).shape == (0, 3)
