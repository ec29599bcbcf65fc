"""The plans of a whole pattern to read: for each size its pieces, each a sheet of its own, and the yarn to buy."""

from collections.abc import Iterator, Sequence
from textwrap import wrap

from lintarsia.pattern.buying import Need, needs_of
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.work import PatternWork
from lintarsia.plansheets.materials import strong
from lintarsia.plansheets.text import plan_text
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.lengths import wound_length, yarn_length


def pattern_plan_text(
    work: PatternWork, chosen: Sequence[PieceInSize], screen: Screen = PLAIN, *, whole: bool = False
) -> str:
    """A sheet for each piece, size by size, and after the pieces of a size what it takes of each yarn."""
    parts = []
    for size in dict.fromkeys(one.size for one in chosen):
        parts += [piece_plan_text(work, one, screen, whole=whole) for one in chosen if one.size == size]
        parts.append("\n".join(buying_list(work, size, screen)) + "\n")
    return "\n".join(parts)


def piece_plan_text(
    work: PatternWork,
    one: PieceInSize,
    screen: Screen = PLAIN,
    *,
    whole: bool = False,
    window: tuple[int, int] | None = None,
) -> str:
    """The sheet of one piece. What to buy is told for a size as a whole, not for a piece."""
    plan, allowance = work.plan(one.piece, one.size), work.allowance
    sheet = plan_text(one.chart, plan, screen, whole=whole, allowance=allowance, window=window, buying=False)
    if one.times == 1 or window is not None:
        return sheet
    title, rest = sheet.split("\n", 1)
    return f"{title}\nknit {count(one.times, 'of these', 'of these')}; the figures are for one\n{rest}"


def buying_list(work: PatternWork, size: str, screen: Screen = PLAIN) -> list[str]:
    """What a size takes of each yarn for all its pieces, as lines of text."""
    which = f" for {size}" if work.pattern.sized else ""
    lines = [strong(f"To buy{which}, with {work.allowance:.0%} to spare", screen)]
    for need in needs_of(work, size).values():
        lines += _need(work, need, size, screen)
    return lines if len(lines) > 1 else [*lines, "  no colour names a yarn, so nobody can say what to buy"]


def _need(work: PatternWork, need: Need, size: str, screen: Screen) -> Iterator[str]:
    imperial = need.ball is not None and need.ball.imperial
    metres = f"{yarn_length(need.metres, imperial)} + {yarn_length(need.allowance, imperial)}"
    balls = "" if need.to_buy is None else count(need.to_buy, "ball")
    yield f"  {need.name:<34} {metres:>19}  {balls:>8}".rstrip()
    listed = work.pattern.yarns.get(need.yarn)
    stated = listed.balls.get(size) if listed else None
    notes = [f"for {one_and_all(need.pieces)}"]
    if need.to_buy is not None and stated is not None and stated != need.to_buy:
        notes.append(f"the pattern has {stated:g}")
    notes += [
        f"divide a ball: wind {wound_length(part.metres, imperial)} off it for {part.supply} of {part.piece}, "
        "which is worked beside the rest"
        for part in need.parted
    ]
    yield from wrap("; ".join(notes), screen.width, initial_indent="    ", subsequent_indent="    ")
