"""knit/impossible-amount: the yarn that was used is yarn of the pattern, and no amount that cannot be."""

from collections.abc import Iterator
from dataclasses import field
from typing import TYPE_CHECKING

from lintarsia.ground.values import dataclass
from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.telling.guessing import did_you_mean
from lintarsia.telling.lengths import yarn_length

if TYPE_CHECKING:
    from lintarsia.knits.model import Used
    from lintarsia.knits.work import KnitWork

INFO = RuleInfo(
    name="knit/impossible-amount",
    level=Level.ERROR,
    summary="an amount of yarn that no test knit can have used",
    why=(
        "Yarn that was used corrects what the pattern tells people to buy. A slip of the pen in it, grams for metres, "
        "what is left for what was used, makes everybody buy too little."
    ),
    remedy="weigh again, and state what was used, or what there was before and after",
    keys={
        "unknown-yarn": "the pattern has no yarn of that name",
        "more-after": "more is left than there was",
        "no-ball": "grams of a yarn of which nobody says how long a ball is and what it weighs",
        "far-from-plan": "many times what the plan says, or a small part of it",
    },
    sources=("how far is too far, three times, is a house value: gauge and hands make a tenth of difference",),
    subjects=(Kind.KNIT,),
)

LITTLE = 10.0
"""Metres, about 4 g of a middling yarn: kitchen scales tell no less apart. A house value."""


@dataclass(frozen=True, slots=True)
class Options:
    times: float = field(default=3.0, metadata={"help": "how many times the plan's yarn, or what part of it, is taken"})


def check_knit(work: "KnitWork", options: Options) -> Iterator[Finding]:
    """One finding for each yarn at most."""
    if work.knitted is None or work.size is None:
        return
    from lintarsia.knits.plannedyarn import balls_of, planned_metres

    balls = balls_of(work.knitted)
    planned = planned_metres(work.knitted, work.size) if work.log.used and work.log.finished else {}
    for yarn, used in work.log.used.items():
        region = work.log.places.value("used", yarn)
        if yarn not in balls:
            hint = did_you_mean(yarn, balls) or (f"; it has {', '.join(balls)}" if balls else "; it states none")
            message = f"the {work.log.of} has no yarn {yarn!r}{hint}"
            remedy = "state the yarn under its name in `yarns`"
            yield Finding("unknown-yarn", message, work.log.places.key("used", yarn), remedy=remedy, pattern=yarn)
            continue
        told = _more_after(yarn, used) or _no_ball(yarn, used, balls[yarn].metres(used.spent))
        if told is None and planned.get(yarn):
            told = _far(yarn, used, balls[yarn].metres(used.spent), planned[yarn], options.times)
        if told is not None:
            key, message, level = told
            yield Finding(key, message, region, level=level, pattern=f"{yarn} {key}")


Told = tuple[str, str, Level | None] | None


def _more_after(yarn: str, used: "Used") -> Told:
    spent = used.spent
    if spent is None or spent.value >= 0:
        return None
    return "more-after", f"{yarn}: {used.after} are left of {used.before}", None


def _no_ball(yarn: str, used: "Used", metres: float | None) -> Told:
    if metres is not None or used.spent is None:
        return None
    words = f"{yarn}: {used.spent} cannot be told in metres; nothing says how long a ball of it is and what it weighs"
    return "no-ball", words, Level.NOTE


def _far(yarn: str, used: "Used", metres: float | None, planned: float, times: float) -> Told:
    if metres is None or planned / times <= metres <= planned * times or abs(metres - planned) < LITTLE:
        return None
    spent, wanted = yarn_length(metres, False), yarn_length(planned, False)
    words = f"{yarn}: {used.spent}, about {spent}, were used; the plan says {wanted}"
    return "far-from-plan", words, Level.WARNING
