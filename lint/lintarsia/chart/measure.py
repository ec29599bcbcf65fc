"""Lengths, masses and stitch counts with their units, as knitters write them."""

import re
from functools import cache

from lintarsia.ground.values import dataclass

MM_PER = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "yd": 914.4}
GRAMS_PER = {"g": 1.0, "oz": 28.349523125}

_LENGTH = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(mm|cm|m|in|yd)", re.ASCII)
_MASS = r"([0-9]+(?:\.[0-9]+)?) ?(g|oz)"
_STITCHES = r"([0-9]+)(?: ?(?:stitches|stitch|sts|st))?"


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    """Compiled by the first chart that has such a value, and asked for quicker than by `re` itself."""
    return re.compile(pattern, re.ASCII)


def _plain(number: float) -> str:
    return f"{number:.10g}"


@dataclass(frozen=True, slots=True)
class Length:
    """A length as written: `value` in `unit` (mm, cm, m, in or yd)."""

    value: float
    unit: str = "mm"

    @property
    def mm(self) -> float:
        return self.value * MM_PER[self.unit]

    @property
    def metres(self) -> float:
        return self.mm / 1000

    @property
    def imperial(self) -> bool:
        return self.unit in ("in", "yd")

    def __str__(self) -> str:
        return f"{_plain(self.value)} {self.unit}"


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass as written: `value` in `unit` (g or oz, the avoirdupois ounce)."""

    value: float
    unit: str = "g"

    @property
    def grams(self) -> float:
        return self.value * GRAMS_PER[self.unit]

    def __str__(self) -> str:
        return f"{_plain(self.value)} {self.unit}"


@dataclass(frozen=True, slots=True)
class StitchCount:
    """A distance counted in stitches instead of measured."""

    count: int

    def __str__(self) -> str:
        return f"{self.count} {'stitch' if self.count == 1 else 'stitches'}"


def parse_length(text: str) -> Length:
    """`"2.5 cm"` to a Length. Raises ValueError for anything but a number and mm, cm, m, in or yd."""
    match = _LENGTH.fullmatch(text)
    if not match:
        raise ValueError(f"{text!r} is not a length; write a number and mm, cm, m, in or yd")
    return Length(float(match[1]), match[2])


def parse_mass(text: str) -> Mass:
    """`"50 g"` to a Mass. Raises ValueError for anything but a number and g or oz."""
    match = _compiled(_MASS).fullmatch(text)
    if not match:
        raise ValueError(f"{text!r} is not a mass; write a number and g or oz")
    return Mass(float(match[1]), match[2])


def parse_reach(text: str | int) -> Length | StitchCount:
    """How far a float or a carry goes: `"2.5 cm"`, `"5 stitches"` or 5. Raises ValueError for anything else."""
    if not isinstance(text, str):
        return StitchCount(int(text))
    match = _compiled(_STITCHES).fullmatch(text)
    if match:
        return StitchCount(int(match[1]))
    try:
        return parse_length(text)
    except ValueError:
        raise ValueError(f"{text!r} is neither a length (2.5 cm) nor a count (5 stitches)") from None
