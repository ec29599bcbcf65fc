"""care/infant-floats: loose strands inside something that an infant wears."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Wearer
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.citing import TOURNIQUETS
from lintarsia.rules.shared.floats import floats, stranding_chosen
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.lengths import length_in

INFO = RuleInfo(
    name="care/infant-floats",
    level=Level.WARNING,
    summary="an infant's piece has floats inside",
    why=(
        "Infants' fingers and toes catch in strands inside mittens, socks and jackets, and an infant cannot say so. "
        "This is the usual caution, not an assessment: whether a piece is safe is for local rules and a qualified "
        "assessor."
    ),
    remedy="line the piece, or choose intarsia or duplicate stitch for these rows; keep what floats remain very short",
    keys={"floats-inside": "yarn is stranded across the inside of a piece for an infant"},
    sources=(TOURNIQUETS,),
    judges_by=frozenset({Basis.GAUGE}),
)


@dataclass(frozen=True, slots=True)
class Options:
    longest: int = field(default=0, metadata={"help": "most stitches of a float that is left unmentioned"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for the chart, at its `wearer`, where that is an infant and yarn is stranded inside."""
    chart = work.chart
    if chart.wearer is not Wearer.INFANT or not stranding_chosen(work):
        return
    crossed = [crossing.crossed for crossing in floats(work, options.longest)]
    if crossed:
        longest = max(crossed)
        length = length_in(chart, longest * chart.gauge.float_stitch_mm)
        message = (
            f"the piece is for an infant and has {count(len(crossed), 'float')} inside, the longest across "
            f"{stitch_count(longest)} ({length}); small fingers and toes can catch in them"
        )
        yield Finding("floats-inside", message, chart.places.value("wearer"), pattern="floats-inside")
