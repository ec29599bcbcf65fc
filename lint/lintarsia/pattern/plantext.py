"""The plans of a whole pattern to read: for each size its pieces, each a sheet of its own, and the yarn to buy."""

from collections.abc import Collection, Iterator, Sequence
from textwrap import wrap

from lintarsia.pattern.buying import For, Need, Part, needs_of
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.work import PatternWork
from lintarsia.plansheets.materials import strong
from lintarsia.plansheets.text import plan_text
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.telling.counts import count
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
    lines, needs = [strong(f"To buy{which}, with {work.allowance:.0%} to spare", screen)], needs_of(work, size)
    for need in needs.values():
        lines += _need(work, need, size, screen)
    if not needs:
        return [*lines, "  no colour names a yarn, so nobody can say what to buy"]
    return [
        *lines,
        *wrap(house_values(work, needs.values()), screen.width, initial_indent="  ", subsequent_indent="  "),
    ]


def house_values(work: PatternWork, needs: Collection[Need]) -> str:
    """Which of the figures no measure stands behind: a sentence, naming those that were used."""
    used = {part.what for need in needs for part in need.parts}
    reckoned = work.reckoning
    told = [f"a stitch cast on is {reckoned.cast_on:g} × its width and a tail"] if For.CAST_ON in used else []
    told += [f"one bound off {reckoned.bind_off:g} ×"] if For.BIND_OFF in used else []
    told += [f"a seam {reckoned.seam:g} × its length and two tails"] if For.SEAMS in used else []
    if any(part.times_plain != 1 for need in needs for part in need.parts):
        told.append(f"a stitch of rib {reckoned.rib:g} × a plain one")
    spare = "slips" if For.SWATCH in used else "the swatch and slips"
    return f"House values, all settings: {', '.join([*told, f'{work.allowance:.0%} for {spare}'])}."


def _need(work: PatternWork, need: Need, size: str, screen: Screen) -> Iterator[str]:
    imperial = need.ball is not None and need.ball.imperial
    metres = f"{yarn_length(need.whole, imperial)} + {yarn_length(need.allowance, imperial)}"
    balls = "" if need.to_buy is None else count(need.to_buy, "ball")
    yield f"  {need.name:<34} {metres:>19}  {balls:>8}".rstrip()
    for part in need.parts:
        yield f"    {_for(work, part, size):<32} {yarn_length(part.metres, imperial):>9}".rstrip()
    notes = []
    if need.to_buy is not None and need.stated is not None and need.stated != need.to_buy:
        notes.append(f"the pattern has {need.stated:g}")
    notes += [
        f"divide a ball: wind {wound_length(part.metres, imperial)} off it for {part.supply} of {part.piece}, "
        "which is worked beside the rest"
        for part in need.parted
    ]
    yield from wrap("; ".join(notes), screen.width, initial_indent="    ", subsequent_indent="    ")


def _for(work: PatternWork, part: Part, size: str) -> str:
    """What a part of a yarn is for, in words: `2 × sleeve`, `brim, cast-on`, `the seams`."""
    if part.what is For.SEAMS:
        return "the seams"
    if part.what is For.SWATCH:
        return f"a swatch of {work.pattern.swatch} square"
    piece = work.pattern.pieces[part.piece]
    name = f"{piece.knitted(size)} × {part.piece}" if piece.knitted(size) > 1 else part.piece
    stitch = f", {piece.stitch}" if piece.stitch and not piece.charts else ""
    return name + stitch if part.what is For.PIECE else f"{name}, {part.what}"
