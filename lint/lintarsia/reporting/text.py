"""The report for a knitter at a terminal: where, what, a look at the rows, what to do; then one line that sums up."""

import textwrap
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lintarsia.reporting.counted import files_counted
from lintarsia.reporting.paint import by_level, harmless, level_mark, plain_where_needed, quiet, strong
from lintarsia.reporting.screen import Screen
from lintarsia.result import Fixed, Level, Picture, Report, Result
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.reporting.groups import Group

MOST_PLACE_LINES = 4
MOST_MESSAGES = 6
_PICTURELESS = Picture((), {}, ())


def pieces(report: Report, screen: Screen) -> Iterator[str]:
    """The whole report, at most `screen.width` columns but for paths and words that are longer in themselves."""
    yield from _entries(report, screen)
    yield mended(report, screen)
    lines = [*_closing(report, screen), summary(report, screen)] if report.charts or report.others else []
    yield plain_where_needed("".join(f"{line}\n" for line in lines), screen)


def _closing(report: Report, screen: Screen) -> Iterator[str]:
    if report.results:
        from lintarsia.reporting.closing import closing

        yield from closing(report, screen)


def mended(report: Report, screen: Screen) -> str:
    """A line for each thing that was mended, and a blank one after them."""
    if not report.fixed:
        return ""
    lines = [_mended(fixed, screen) for fixed in report.fixed]
    return plain_where_needed("".join(f"{line}\n" for line in [*lines, ""]), screen)


def _mended(fixed: Fixed, screen: Screen) -> str:
    where = f"{'round' if fixed.round else 'row'} {fixed.row}: " if fixed.row is not None else ""
    place = strong(harmless(f"{fixed.file}:{fixed.line}"), screen)
    return f"{place}  mended, {where}{harmless(fixed.description)}  {quiet(fixed.rule, screen)}"


def entries(report: Report, screen: Screen) -> str:
    """An entry for each group of like results, each with a blank line after it."""
    return "".join(_entries(report, screen))


def _entries(report: Report, screen: Screen) -> Iterator[str]:
    if not report.results:
        return
    from lintarsia.reporting.groups import by_file, groups

    for results in by_file(report.results):
        picture = report.pictures.get(results[0].file, _PICTURELESS)
        lines = [line for group in groups(results) for line in (*_entry(group, picture, screen), "")]
        yield plain_where_needed("".join(line.rstrip() + "\n" for line in lines), screen)


def summary(report: Report, screen: Screen) -> str:
    """`9 charts: 2 errors, 1 warning; 1 suppressed`, or that all is well."""
    kept = f"; {report.suppressed} suppressed" if report.suppressed else ""
    counts = [(level, report.count(level)) for level in (Level.ERROR, Level.WARNING, Level.NOTE)]
    told = [by_level(count(found, str(level)), level, screen) for level, found in counts if found]
    if not told:
        return f"{files_counted(report)}: nothing to mend{kept}"
    ending = "" if report.blocked else quiet(" (nothing that blocks)", screen)
    return f"{files_counted(report)}: {', '.join(told)}{kept}{ending}"


def _entry(group: "Group", picture: Picture, screen: Screen) -> Iterator[str]:
    first = group[0]
    yield strong(harmless(f"{first.file}:{first.region.line}:{first.region.column}"), screen)
    where = _where(group, picture)
    used = len(f"■ {first.level}  {where}")
    gap = screen.width - used - len(first.rule)
    rule = f"{' ' * gap}{quiet(first.rule, screen)}" if gap > 1 else ""
    yield f"{level_mark(first.level, screen)}  {where}{rule}"
    if not rule:
        yield f"  {quiet(first.rule, screen)}"
    yield from _wrapped(harmless(first.message), screen, "  ")
    from lintarsia.reporting.rowpicture import draw_rows

    drawn = draw_rows(first, picture, screen)
    if drawn:
        yield from ["", *drawn, ""]
    if len(group) > 1:
        yield from _others(group, picture, screen)
    if first.remedy:
        yield from _labelled("mend", harmless(first.remedy), screen)


def _where(group: "Group", picture: Picture) -> str:
    first = group[0]
    if len(group) > 1:
        rows = len({result.row for result in group if result.row is not None})
        word = "round" if picture.round else "row"
        return f"{len(group):,} places" + (f" in {count(rows, word)}" if rows else "")
    return place_words(first, picture)


def place_words(result: Result, picture: Picture) -> str:
    """`row 14 (WS), stitches 23–25`; "" for a result that has no row."""
    if result.row is None:
        return ""
    side = picture.sides[result.row - 1] if 1 <= result.row <= len(picture.sides) else ""
    name = f"round {result.row}" if picture.round else f"row {result.row}" + (f" ({side})" if side else "")
    if result.stitches is None:
        return name
    one, last = result.stitches
    return f"{name}, stitch {one}" if one == last else f"{name}, stitches {one}–{last}"


def _others(group: "Group", picture: Picture, screen: Screen) -> Iterator[str]:
    """The rest of a group: places where it has them, else what each says."""
    rest = group[1:]
    if all(result.row is not None for result in rest):
        from lintarsia.reporting.groups import places

        told = places(group, "round" if picture.round else "row")
        lines = textwrap.wrap(" · ".join(told).replace(" ", "\0").replace("\0·\0", " · "), screen.width - 8)
        lines = [line.replace("\0", " ").removeprefix("· ").removesuffix(" ·") for line in lines]
        if len(lines) > MOST_PLACE_LINES:
            shown = sum(line.count(" · ") + 1 for line in lines[:MOST_PLACE_LINES])
            lines = [*lines[:MOST_PLACE_LINES], f"and {len(told) - shown:,} more; --format json lists them all"]
        yield from _hanging("all", lines, screen)
        return
    lines = []
    for result in rest[:MOST_MESSAGES]:
        lines += textwrap.wrap(harmless(result.message), screen.width - 8, break_on_hyphens=False)
    if len(rest) > MOST_MESSAGES:
        lines.append(f"and {len(rest) - MOST_MESSAGES:,} more; --format json lists them all")
    yield from _hanging("also", lines, screen)


def _labelled(label: str, text: str, screen: Screen) -> Iterator[str]:
    yield from _hanging(label, textwrap.wrap(text, screen.width - 8, break_on_hyphens=False), screen)


def _hanging(label: str, lines: Sequence[str], screen: Screen) -> Iterator[str]:
    for i, line in enumerate(lines):
        yield f"  {quiet(label.ljust(6), screen) if i == 0 else ' ' * 6}{line}"


def _wrapped(text: str, screen: Screen, indent: str) -> Iterator[str]:
    yield from textwrap.wrap(
        text, screen.width, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
    )
