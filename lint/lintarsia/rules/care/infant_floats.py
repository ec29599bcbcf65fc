"""care/infant-floats: loose strands inside something that an infant wears."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Wearer
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.citing import TOURNIQUETS
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.telling.counts import count, stitch_count
from lintarsia.telling.lengths import length_in

INFO = RuleInfo(
    name="care/infant-floats",
    level=Level.WARNING,
    summary="an infant's piece has loose strands inside",
    why=(
        "Infants' fingers and toes catch in strands inside mittens, socks and jackets, and an infant cannot say so. "
        "This is the usual caution, not an assessment: whether a piece is safe is for local rules and a qualified "
        "assessor."
    ),
    remedy="line the piece, or choose intarsia or duplicate stitch for these rows; keep what floats remain very short",
    keys={
        "floats-inside": "yarn is stranded across the inside of a piece for an infant",
        "carries-inside": "yarn is carried across stitches to its next row, inside a piece for an infant",
        "rests-inside": "yarn rests and is taken up rows higher, inside a piece for an infant",
    },
    sources=(TOURNIQUETS,),
    judges_by=frozenset({Basis.SYMBOLS, Basis.GAUGE}),
    subjects=(Kind.CHART, Kind.PATTERN),
)


@dataclass(frozen=True, slots=True)
class Options:
    longest: int = field(default=0, metadata={"help": "most stitches of a float that is left unmentioned"})
    carried: int = field(default=1, metadata={"help": "most stitches of a carry between rows that is left unmentioned"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding of each key for the chart, at its `wearer`, where that is an infant: for floats where yarn is
    stranded inside, for carries and rests where it is not, since these lie loose at the back as well.
    """
    chart = work.chart
    if chart.wearer is not Wearer.INFANT:
        return
    if work.stranding_chosen:
        from lintarsia.rules.shared.floats import floats

        crossed = [crossing.crossed for crossing in floats(work, options.longest)]
        if crossed:
            yield _finding(work, "floats-inside", count(len(crossed), "float"), max(crossed))
        return
    cover = work.plan.threads.cover
    carried = cover.carried[(cover.carried > options.carried) & ~cover.same_row]
    if len(carried):
        yield _finding(work, "carries-inside", count(len(carried), "carry", "carries"), int(carried.max()))
    rests = int((cover.idle > 0).sum())
    if rests:
        message = (
            f"the piece is for an infant and yarns rest {count(rests, 'time')} and are taken up again rows higher, "
            "each a loose strand up the inside; small fingers and toes can catch in them"
        )
        yield Finding("rests-inside", message, chart.places.value("wearer"), pattern="rests-inside")


check_pattern = on_pieces(INFO.name, check)


def _finding(work: Work, key: str, what: str, longest: int) -> Finding:
    chart = work.chart
    length = length_in(chart, longest * chart.gauge.float_stitch_mm)
    message = (
        f"the piece is for an infant and has {what} inside, the longest across "
        f"{stitch_count(longest)} ({length}); small fingers and toes can catch in them"
    )
    return Finding(key, message, chart.places.value("wearer"), pattern=key)
