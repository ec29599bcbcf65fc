"""How far apart two shades look: to most eyes, in grey print, and to colour-blind readers.

Written out here instead of imported because a run over thousands of charts asks for little else: the arithmetic of a
shade is a few microseconds, a colour library's start some hundredths of a second. Tests compare it with such libraries.
"""

from collections.abc import Mapping
from functools import lru_cache
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt
from typing import NamedTuple

Vector = tuple[float, float, float]
Matrix = tuple[Vector, Vector, Vector]

# IEC 61966-2-1: linear sRGB to CIE XYZ, and the D65 white at the chromaticity (0.3127, 0.3290).
_TO_XYZ: Matrix = (
    (0.4123907992659595, 0.357584339383878, 0.1804807884018343),
    (0.21263900587151036, 0.715168678767756, 0.07219231536073371),
    (0.01933081871559185, 0.11919477979462599, 0.9505321522496606),
)
_WHITE: Vector = (0.3127 / 0.3290, 1.0, (1 - 0.3127 - 0.3290) / 0.3290)

# G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, IEEE Trans. Vis. Comput. Graph. 15 (2009) 1291: severity 1.0.
_PROTAN: Matrix = (
    (0.152286, 1.052583, -0.204868),
    (0.114503, 0.786281, 0.099216),
    (-0.003882, -0.048116, 1.051998),
)
_DEUTAN: Matrix = (
    (0.367322, 0.860646, -0.227968),
    (0.280085, 0.672501, 0.047413),
    (-0.011820, 0.042940, 0.968881),
)

# H. Brettel, F. Viénot, J. D. Mollon, J. Opt. Soc. Am. A 14 (1997) 2647, for tritanopia, where Machado's model is weak:
# linear sRGB to the cones (Smith and Pokorny), and for each half of colour space a plane on which all colours fall.
_TO_LMS: Matrix = (
    (0.178824041258, 0.4351609057, 0.04119349692),
    (0.034556423182, 0.27155382458, 0.03867130836),
    (0.000299565576, 0.0018430896, 0.01467086136),
)
_TRITAN_SPLIT = (0.344781556122, -0.6551784438780001)  # of L and M; S decides nothing
_TRITAN: tuple[Matrix, Matrix] = (
    (
        (7.392856536180033, -11.148044821248138, 0.0),
        (-0.34194012421930653, 3.5501661175064, 0.0),
        (-4.2050692716448586, 10.89115898202731, 0.0),
    ),
    (
        (8.0643934576311, -12.42414705871019, 0.0),
        (-0.9956078228581946, 4.7923119863996835, 0.0),
        (-0.2150297288038942, 3.3090019545637928, 0.0),
    ),
)


class Lab(NamedTuple):
    """CIE L*a*b* under D65."""

    l: float  # noqa: E741 - its name everywhere
    a: float
    b: float


class Seen(NamedTuple):
    """One shade to most eyes and to readers who lack one kind of cone."""

    plain: Lab
    protan: Lab
    deutan: Lab
    tritan: Lab


BLINDNESS: Mapping[str, str] = {"protan": "red-blind", "deutan": "green-blind", "tritan": "blue-blind"}


@lru_cache(maxsize=4096)
def seen(shade: str) -> Seen:
    """`"#rrggbb"` as each reader sees it."""
    linear = _linear(shade)
    lms = _times(_TO_LMS, linear)
    half = _TRITAN[_TRITAN_SPLIT[0] * lms[0] + _TRITAN_SPLIT[1] * lms[1] > 0]
    return Seen(_lab(linear), _lab(_times(_PROTAN, linear)), _lab(_times(_DEUTAN, linear)), _lab(_times(half, lms)))


def farther(a: Lab, b: Lab, than: float) -> bool:
    """Whether two colours are certainly at least `than` apart, told by lightness alone.

    CIEDE2000 is never less than the lightness difference over S_L, and S_L is never more than 1.75.
    """
    return abs(a.l - b.l) >= 1.75 * than


@lru_cache(maxsize=65536)
def difference(one: Lab, two: Lab) -> float:
    """CIEDE2000, after the formulas of Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21."""
    c_mean = (hypot(one.a, one.b) + hypot(two.a, two.b)) / 2
    stretch = 1.5 - 0.5 * sqrt(c_mean**7 / (c_mean**7 + 25.0**7))
    a1, a2 = one.a * stretch, two.a * stretch
    c1, c2 = hypot(a1, one.b), hypot(a2, two.b)
    h1, h2 = degrees(atan2(one.b, a1)) % 360, degrees(atan2(two.b, a2)) % 360
    turn, h = h2 - h1, (h1 + h2) / 2  # of no account where one of the two is grey: d_h is 0 then
    if abs(turn) > 180:
        turn -= 360  # or plus: the sine of half of it is the same
        h += 180 if h < 180 else -180
    c, light = (c1 + c2) / 2, ((one.l + two.l) / 2 - 50) ** 2
    t = (
        1
        - 0.17 * cos(radians(h - 30))
        + 0.24 * cos(radians(2 * h))
        + 0.32 * cos(radians(3 * h + 6))
        - 0.20 * cos(radians(4 * h - 63))
    )
    d_l = (two.l - one.l) / (1 + 0.015 * light / sqrt(20 + light))
    d_c = (c2 - c1) / (1 + 0.045 * c)
    d_h = 2 * sqrt(c1 * c2) * sin(radians(turn / 2)) / (1 + 0.015 * c * t)
    rotation = -2 * sqrt(c**7 / (c**7 + 25.0**7)) * sin(radians(60 * exp(-(((h - 275) / 25) ** 2))))
    return sqrt(max(0.0, d_l**2 + d_c**2 + d_h**2 + rotation * d_c * d_h))


def _linear(shade: str) -> Vector:
    value = int(shade[1:], 16)
    return _LINEAR[value >> 16], _LINEAR[value >> 8 & 255], _LINEAR[value & 255]


def _times(matrix: Matrix, v: Vector) -> Vector:
    (a, b, c), (d, e, f), (g, h, i) = matrix
    x, y, z = v
    return a * x + b * y + c * z, d * x + e * y + f * z, g * x + h * y + i * z


def _lab(linear: Vector) -> Lab:
    """Simulated colours may lie a little outside sRGB; they are clipped as a screen would."""
    red, green, blue = linear
    inside = (min(1.0, max(0.0, red)), min(1.0, max(0.0, green)), min(1.0, max(0.0, blue)))
    x, y, z = _times(_TO_XYZ, inside)
    fx, fy, fz = _root(x / _WHITE[0]), _root(y), _root(z / _WHITE[2])
    return Lab(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz))


def _root(t: float) -> float:
    return t ** (1 / 3) if t > 216 / 24389 else (24389 / 27 * t + 16) / 116


_LINEAR = tuple(c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (i / 255 for i in range(256)))
