"""The stitch of a piece without a chart, as its words say it: ribs, moss stitch, garter stitch. Common practice."""

import re

from lintarsia.chart.texture import GARTER, KNIT, PURL

_RIB = re.compile(r"k ?(?P<k>[0-9]{1,2})[ ,/]*p ?(?P<p>[0-9]{1,2})\b|\b(?P<a>[0-9]{1,2}) ?[x×/] ?(?P<b>[0-9]{1,2})\b")
_MOSS = re.compile(r"\b(moss|seed|rice)\b")
_GARTER = re.compile(r"\bgarter\b")
_RIBBED = re.compile(r"\brib")


def rib_of(words: str) -> tuple[int, int] | None:
    """How many stitches of a rib are knitted and purled in turn: (2, 2) for `k2, p2 rib` or `2 × 2 rib`."""
    match = _RIB.search(words.casefold())
    if match is None:
        return None
    knit, purl = int(match["k"] or match["a"]), int(match["p"] or match["b"])
    return (knit, purl) if knit and purl else None


def pulls_in(words: str) -> bool:
    """Whether the yarn goes to and fro between knit and purl within a row."""
    folded = words.casefold()
    return rib_of(words) is not None or bool(_RIBBED.search(folded) or _MOSS.search(folded))


def stitch_rows(words: str, wide: int, high: int) -> list[str]:
    """The texture of so many stitches and rows, bottom-up, as a chart's `stitches` has it; none for words that are no
    stitch known here. A rib begins with its knit stitches where a right-side row begins.
    """
    rib = rib_of(words)
    if rib is not None:
        return [((KNIT * rib[0] + PURL * rib[1]) * wide)[:wide][::-1]] * high
    if _MOSS.search(words.casefold()):
        return [((KNIT + PURL) * wide)[row % 2 :][:wide][::-1] for row in range(high)]
    return [GARTER * wide] * high if _GARTER.search(words.casefold()) else []
