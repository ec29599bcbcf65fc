"""Knit and purl alone, for whoever has the colours beside them: `k5, p29`, `[k1, p1] 22 times, k1`."""

from collections.abc import Sequence
from itertools import groupby

from lintarsia.chart import Chart
from lintarsia.chart.sides import Stint
from lintarsia.telling.languages import marked, phrase
from lintarsia.written.folding import Part, Repeated, fold
from lintarsia.written.order import ColourSupply, YarnStretch, stint_kinds, usual_stitch

KINDS = marked("k{n}", "p{n}")
_NO_YARN = ColourSupply("")


def kind_words(chart: Chart, stint: Stint) -> str:
    """How the stitches of a stint are worked, in working order; "" where they are stocking stitch throughout."""
    kinds = stint_kinds(chart, stint)
    if not set(kinds) - {usual_stitch(chart, stint.row)}:
        return ""
    return _phrase(fold([YarnStretch(_NO_YARN, sum(1 for _ in same), kind) for kind, same in groupby(kinds)]))


def _phrase(parts: Sequence[Part]) -> str:
    return ", ".join(
        phrase("[{stitches}] {n} times", stitches=_phrase(part.parts), n=part.times)
        if isinstance(part, Repeated)
        else phrase(f"{part.stitch}{{n}}", n=part.count)
        for part in parts
    )
