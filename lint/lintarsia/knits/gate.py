"""What test knits say of a release: findings where something is open, and boxes that they tick."""

from collections.abc import Iterator
from itertools import chain
from typing import NamedTuple

from lintarsia.ground.values import dataclass
from lintarsia.knits.model import Remark, RemarkKind
from lintarsia.knits.plannedyarn import balls_of
from lintarsia.knits.summary import NOW, THEN, UNSAID, Knit, PatternKnits
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.pattern.work import PatternWork
from lintarsia.result import Finding, Level
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.lengths import yarn_lengths
from lintarsia.telling.spans import span

UNTESTED, OPEN, SHORT = "knit/untested-size", "knit/open-remark", "knit/yarn-short"


class ToldFinding(NamedTuple):
    """A finding of a rule, in a log where it is about one; "" for the pattern's own file."""

    rule: str
    finding: Finding
    file: str = ""


@dataclass(frozen=True, slots=True)
class Gate:
    """`lines` say of each size who has knitted it at which revision. Each box is ticked where nothing was found."""

    lines: tuple[str, ...]
    told: tuple[ToldFinding, ...]
    every_size: bool
    all_answered: bool
    yarn_enough: bool


def gate(one: PatternKnits, work: PatternWork) -> Gate | None:
    """What keeps a pattern with test knits from release; None for one that has none."""
    if not one.knits and not one.of_charts:
        return None
    remarks, short = [*_open(one), *chain.from_iterable(map(_open, one.of_charts))], list(_short(one, work))
    sizes = list(_untested(one, work)) if one.knits else []
    weighed = any(used.ratio for knit in one.knits for used in knit.yarns)
    lines = tuple(f"{size}: {_who(knits)}" if size != ONE_SIZE else _who(knits) for size, knits in one.sizes.items())
    return Gate(lines, (*sizes, *remarks, *short), bool(one.knits) and not sizes, not remarks, weighed and not short)


def _who(knits: tuple[Knit, ...]) -> str:
    if not knits:
        return "nobody"
    return one_and_all([f"{knit.knitter} ({_state(knit)})" for knit in knits])


def _state(knit: Knit) -> str:
    revision = {NOW: "as it is now", THEN: f"as it was in {knit.commit}", UNSAID: "revision not stated"}
    same = ", with the stitches of now" if knit.revision == THEN and knit.same_stitches else ""
    return f"{'' if knit.finished else 'still knitting, '}{revision.get(knit.revision, 'revision unknown')}{same}"


def _untested(one: PatternKnits, work: PatternWork) -> Iterator[ToldFinding]:
    for size in work.pattern.sizes:
        done = [knit for knit in one.sizes.get(size, ()) if knit.finished]
        index = work.pattern.sizes.index(size)
        region = work.place("sizes", index) if work.pattern.sized else work.place("title")
        which = size if work.pattern.sized else "it"
        if not done:
            message = f"nobody has finished {which}; {count(len(one.knits), 'test knit')} in all"
            yield ToldFinding(UNTESTED, Finding("nobody", message, region, pattern=f"{size} nobody"))
        elif not any(knit.same_stitches or knit.revision == UNSAID for knit in done):
            message = f"{which} was finished by {one_and_all([knit.knitter for knit in done])}, and has changed since"
            told = Finding("other-revision", message, region, level=Level.NOTE, pattern=f"{size} other-revision")
            yield ToldFinding(UNTESTED, told)


def _open(one: PatternKnits) -> Iterator[ToldFinding]:
    for knit in one.knits:
        for remark in knit.rows:
            if remark.open:
                at = f"{remark.piece}, " if remark.piece else ""
                place = f"{at}row {remark.row}{_stitches(remark)}"
                message = f"{place}: {knit.knitter} says “{remark.said}”, and has no answer"
                level = Level.ERROR if remark.kind is RemarkKind.TROUBLE else None
                kept = f"{knit.knitter} {place} {remark.said}"
                told = Finding(str(remark.kind), message, remark.region, level=level, pattern=kept)
                yield ToldFinding(OPEN, told, knit.file)


def _stitches(remark: Remark) -> str:
    if remark.stitches is None:
        return ""
    first, last = remark.stitches
    return f", {'stitch' if first == last else 'stitches'} {span(first, last)}"


def _short(one: PatternKnits, work: PatternWork) -> Iterator[ToldFinding]:
    """The most that anybody used, by size and yarn; amounts that are far from all others' are slips, not needs."""
    balls, odd = balls_of(work), {(odd.file, odd.yarn) for odd in one.odd}
    far = {far.file for far in one.calibration.outliers} if one.calibration else set()
    for size, knits in one.sizes.items():
        most: dict[str, tuple[float, str]] = {}
        for knit in (knit for knit in knits if knit.finished and knit.file not in far):
            for used in knit.yarns:
                if used.metres is not None and (knit.file, used.yarn) not in odd:
                    most[used.yarn] = max(most.get(used.yarn, (0.0, "")), (used.metres, knit.knitter))
        for yarn, (metres, knitter) in most.items():
            bought = work.pattern.yarns.get(yarn)
            stated, ball = bought.balls.get(size) if bought else None, balls[yarn].length if yarn in balls else None
            if stated is not None and ball is not None and metres > stated * ball.metres:
                used_words, holds = yarn_lengths((metres, stated * ball.metres), ball.imperial)
                held = f"{stated:g} {'ball holds' if stated == 1 else 'balls hold'}"
                message = f"{balls[yarn].name}, {size}: {knitter} used {used_words}; the {held} {holds}"
                told = Finding("short", message, work.place("yarns", yarn, "balls", size), pattern=f"{yarn} {size}")
                yield ToldFinding(SHORT, told)
