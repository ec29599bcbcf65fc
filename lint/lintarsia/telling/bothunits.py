"""Finished measurements in centimetres and inches at once, rounded as patterns print them, several sizes nested."""

from collections.abc import Sequence

from lintarsia.chart.measure import MM_PER
from lintarsia.telling.languages import in_figures, phrase

_QUARTERS = ("", "¼", "½", "¾")


def nested_words(words: Sequence[str]) -> str:
    """`20 (30, 40)`; one word where all sizes have the same."""
    first, *rest = words
    return first if set(words) == {first} else f"{first} ({', '.join(rest)})"


def centimetres(mm: float) -> str:
    """`20`, `19.5`: to the nearest half, as sweaters are measured; to the millimetre below 5 cm (common practice)."""
    step = 2 if mm >= 50 else 10
    return in_figures(f"{round(mm / MM_PER['cm'] * step) / step:g}")


def inches(mm: float) -> str:
    """`8`, `11¾`: to the nearest quarter."""
    whole, quarters = divmod(round(mm / MM_PER["in"] * 4), 4)
    return f"{whole or ('' if quarters else 0)}{_QUARTERS[quarters]}"


def both_units(mms: Sequence[float], imperial: bool, in_inches: Sequence[float] | None = None) -> tuple[str, str]:
    """`("20 (30) cm", "7¾ (11¾) in")` for the sizes in their order; the units that the gauge is in come first.

    `in_inches` are the lengths to be told in inches, mm, where a designer states both and has rounded each by itself.
    """
    metric = f"{nested_words([centimetres(mm) for mm in mms])} cm"
    told = f"{nested_words([inches(mm) for mm in in_inches or mms])} {phrase('in')}"
    return (told, metric) if imperial else (metric, told)
