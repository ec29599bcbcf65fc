"""yarn/too-much: balls that a pattern says to buy and that no size uses up."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.rules.shared.citing import LOOP_SOURCES
from lintarsia.telling.lengths import ball_count, yarn_length

if TYPE_CHECKING:
    from lintarsia.pattern.buying import Need
    from lintarsia.pattern.work import About, PatternWork

Options = NoOptions
INFO = RuleInfo(
    name="yarn/too-much",
    level=Level.NOTE,
    summary="a pattern says to buy a ball or more beyond what its pieces and the allowance take",
    why=(
        "A ball too many of each colour is money spent for the drawer, and in a pattern of nine colours it decides "
        "whether somebody knits it. The need counts every piece as often as it is knitted."
    ),
    remedy="state fewer balls, or say what the rest is for: a part of the work without a chart can be a piece as well",
    keys={"whole-balls-over": "whole balls are left beyond the need and the allowance"},
    sources=(*LOOP_SOURCES, "the allowance, 10 %, is a house value, a setting"),
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each yarn and size. The need is what the pieces take: what a pattern has besides them is not in
    it, so this is a note and no more.
    """
    from lintarsia.pattern.buying import needs_of

    pattern = work.pattern
    for size in pattern.sizes:
        for need in needs_of(work, size).values():
            listed = pattern.yarns.get(need.yarn)
            stated = listed.balls.get(size) if listed else None
            if stated is not None and need.to_buy is not None and stated >= need.to_buy + 1:
                yield _finding(work, need, size, stated)


def _finding(work: "PatternWork", need: "Need", size: str, stated: float) -> "About":
    from lintarsia.pattern.work import About

    assert need.to_buy is not None
    which = f" in {size}" if work.pattern.sized else ""
    length = yarn_length(need.buy_metres, bool(need.ball and need.ball.imperial))
    verb = "are" if need.to_buy > 1 else "is"
    message = (
        f"{need.name}: {ball_count(stated)} to buy{which}; all pieces take {length} with the allowance, "
        f"for which {ball_count(need.to_buy)} {verb} enough"
    )
    region = work.place("yarns", need.yarn, "balls", size)
    return About(Finding("whole-balls-over", message, region, pattern=f"{need.yarn} {size}"), None, (size,))
