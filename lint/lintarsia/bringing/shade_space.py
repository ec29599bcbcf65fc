"""Shades as points whose distances follow the eye: OKLab.

Source: Bjorn Ottosson, "A perceptual color space for image processing" (2020), the matrices given there; the same as in
CSS Color Module Level 4.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from lintarsia.bringing.arrays import Floats

_TO_LMS = np.array(
    [
        [0.4122214708, 0.5363325363, 0.0514459929],
        [0.2119034982, 0.6806995451, 0.1073969566],
        [0.0883024619, 0.2817188376, 0.6299787005],
    ]
)
_TO_LAB = np.array(
    [
        [0.2104542553, 0.7936177850, -0.0040720468],
        [1.9779984951, -2.4285922050, 0.4505937099],
        [0.0259040371, 0.7827717662, -0.8086757660],
    ]
)


def oklab(rgb: NDArray[np.uint8]) -> Floats:
    """OKLab of sRGB bytes; shape (n, 3) in and out."""
    part = rgb.astype(np.float64) / 255
    linear = np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)
    result: Floats = np.cbrt(linear @ _TO_LMS.T) @ _TO_LAB.T
    return result


def bytes_of(shades: Sequence[str]) -> NDArray[np.uint8]:
    """`"#rrggbb"` strings as an array of shape (n, 3)."""
    return np.array([[int(s[k : k + 2], 16) for k in (1, 3, 5)] for s in shades], np.uint8).reshape(-1, 3)


def oklab_of(shades: Sequence[str]) -> Floats:
    return oklab(bytes_of(shades))


def shade_text(colour: NDArray[np.uint8]) -> str:
    return "#{:02x}{:02x}{:02x}".format(*(int(part) for part in colour))


def toned(rgb: NDArray[np.uint8]) -> Floats:
    """OKLab with its lightness bent back near black, where OKLab takes shades for far apart that no eye parts.

    Source: Bjorn Ottosson, "Okhsv and Okhsl" (2021), the function `toe` and its constants k1 and k2.
    """
    k1, k2 = 0.206, 0.03
    k3 = (1 + k1) / (1 + k2)
    lab = oklab(rgb)
    bent = k3 * lab[:, 0] - k1
    lab[:, 0] = 0.5 * (bent + np.sqrt(bent**2 + 4 * k2 * k3 * lab[:, 0]))
    return lab
