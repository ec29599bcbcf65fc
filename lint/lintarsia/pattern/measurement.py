"""Finished measurements as patterns print them: rounded, in fractions of an inch, in centimetres and inches at once."""

import re

from lintarsia.chart.measure import MM_PER, Length
from lintarsia.ground.values import dataclass

_FRACTIONS = {"¼": 0.25, "½": 0.5, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}
_ONE = re.compile(
    r"(?P<whole>[0-9]+(?:\.[0-9]+)?)?(?:[ -]?(?:(?P<over>[0-9]+)/(?P<under>[0-9]+)|(?P<sign>[¼½¾⅛⅜⅝⅞])))?"
    r" ?(?P<unit>mm|cm|m|in|yd)",
    re.ASCII,
)
_BARE_FRACTION = re.compile(r"(?P<over>[0-9]+)/(?P<under>[0-9]+) ?(?P<unit>mm|cm|m|in|yd)", re.ASCII)


@dataclass(frozen=True, slots=True)
class StatedLength:
    """One number of a measurement. `step_mm` is what it is rounded to, by how it is printed: a whole inch, half a
    centimetre, an eighth of an inch."""

    length: Length
    step_mm: float


@dataclass(frozen=True, slots=True)
class Measurement:
    """A measurement as written (`40 cm / 16 in`), and its numbers: one, or two that say the same in two units."""

    text: str
    stated: tuple[StatedLength, ...]

    @property
    def first(self) -> Length:
        return self.stated[0].length

    def __str__(self) -> str:
        return self.text


def parse_measurement(text: str) -> Measurement:
    """`31 cm`, `10 1/2 in`, `40 cm / 16 in`. Raises ValueError for anything else."""
    slashes = [at for at, character in enumerate(text) if character == "/"]
    for parts in ([text], *([text[:at], text[at + 1 :]] for at in slashes)):
        stated = [_one(part.strip()) for part in parts]
        if all(stated):
            return Measurement(text, tuple(one for one in stated if one is not None))
    raise ValueError(f"{text!r} is not a measurement; write 31 cm, 10 1/2 in or 40 cm / 16 in")


def _one(text: str) -> StatedLength | None:
    match = _BARE_FRACTION.fullmatch(text) or _ONE.fullmatch(text)
    if match is None:
        return None
    said = match.groupdict()
    whole, over, under, sign = said.get("whole"), said["over"], said["under"], said.get("sign")
    if whole is None and over is None and sign is None:
        return None
    part, step = _part(over, under, sign, whole or "")
    return (
        None if step == 0 else StatedLength(Length(float(whole or 0) + part, said["unit"]), step * MM_PER[said["unit"]])
    )


def _part(over: str | None, under: str | None, sign: str | None, whole: str) -> tuple[float, float]:
    """The fraction behind the whole number, and the step in which such numbers are printed; 0 for none at all."""
    if sign:
        return _FRACTIONS[sign], 0.125 if _FRACTIONS[sign] % 0.25 else 0.25 if _FRACTIONS[sign] % 0.5 else 0.5
    if over and under:
        return (int(over) / int(under), 1 / int(under)) if int(under) else (0.0, 0.0)
    decimals = whole.partition(".")[2]
    return 0.0, {"5": 0.5, "25": 0.25, "75": 0.25}.get(decimals, 10.0 ** -len(decimals))
