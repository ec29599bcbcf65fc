"""A comparison for a terminal of eighty columns, in the chart's own colours where it has them."""

import textwrap
from collections.abc import Iterable, Iterator

from lintarsia.comparing.model import Comparison
from lintarsia.comparing.outline import ChangeItem, FileChanges, Strip, headline, outline
from lintarsia.reporting.paint import plain_where_needed, quiet, strong
from lintarsia.reporting.rowpicture import half_blocks, legend
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.result import Result
from lintarsia.telling.counts import count

WIDTH = 80
ONE_LINE = 58  # stitches that have room beside their label


def comparison_text(comparison: Comparison, screen: Screen = PLAIN) -> str:
    """For a terminal."""
    lines = [*wrapped(headline(comparison), "")]
    for section in outline(comparison):
        lines += ["", *(strong(line, screen) for line in wrapped(section.heading, ""))]
        lines += [*wrapped(section.lead, "  "), *_legend(section, screen)]
        for item in section.items:
            lines += ["", *wrapped(item.words, "  "), *_strips(item, section, screen)]
            if item.means:
                lines += wrapped(f"if you are past it: {item.means}", "    ")
        if section.figures:
            lines += ["", "  What it comes to"]
            lines += [line for what, was, now in section.figures for line in wrapped(f"{what}: {was} → {now}", "    ")]
        for title, results in (("New results", section.new), ("Results that are gone", section.gone)):
            if results:
                lines += ["", f"  {title} ({len(results)})"]
                lines += [line for result in results for line in wrapped(result_words(result), "    ")]
    return plain_where_needed("".join(f"{line.rstrip()}\n" for line in lines), screen)


def _strips(item: ChangeItem, section: FileChanges, screen: Screen) -> Iterator[str]:
    indent = "    "
    for at, strip in enumerate(item.strips):
        if item.left_out and at == len(item.strips) - 1:
            yield f"{indent}… {count(item.left_out, 'more row')} of the kind, and the last of them:"
        if len(item.strips) > 1:
            yield f"{indent}{strip.label}"
        drawn = _in_colour(strip, section, screen) if screen.pictures and section.charts else picture(strip)
        yield from (f"{indent}{line}" for line in drawn)
        for label, words in (("was", strip.was_words), ("now", strip.now_words)):
            if words:
                yield from wrapped(f"{label}: {words}", indent, indent + "     ")


def picture(strip: Strip) -> Iterator[str]:
    """The row as letters, with carets beneath what differs."""
    left, right = ("…" if more else " " for more in strip.more)
    if strip.was:
        yield printable(f"was {left}{strip.was}{right}").rstrip()
    if strip.now:
        yield printable(f"now {left}{strip.now}{right}").rstrip()
    if strip.marks.strip():
        yield f"     {strip.marks}".rstrip()


def _in_colour(strip: Strip, section: FileChanges, screen: Screen) -> Iterator[str]:
    """Was over now in half blocks: what differs shows as two colours in one square, with carets beneath."""
    left, right = (quiet("…", screen) if more else " " for more in strip.more)
    wide = max(len(strip.was), len(strip.now))
    was, now = ({s: colour.shade for s, colour in chart.colours.items()} for chart in section.charts)
    label = "was over now" if strip.was and strip.now else "was" if strip.was else "now"
    blocks = half_blocks(strip.was or " " * wide, strip.now or " " * wide, was, now)
    if wide <= ONE_LINE:
        yield f"{label:<12} {left}{blocks}{right}".rstrip()
        pad = " " * 14
    else:
        yield label
        yield f"  {left}{blocks}{right}".rstrip()
        pad = " " * 3
    if strip.marks.strip():
        yield f"{pad}{strip.marks}".rstrip()


def _legend(section: FileChanges, screen: Screen) -> Iterator[str]:
    """The colours of the section's pictures, where these are drawn in them."""
    seen = "".join(strip.was + strip.now for item in section.items for strip in item.strips)
    found = {s: colour for chart in section.charts for s, colour in chart.colours.items() if s in seen}
    if found and screen.pictures:
        shades = {symbol: colour.shade for symbol, colour in found.items()}
        names = {symbol: printable(colour.name) for symbol, colour in found.items()}
        yield f"  {legend(shades, names, WIDTH - 2, screen)}"


def result_words(result: Result) -> str:
    """`error: row 14 has … [grid/stitch-count]`"""
    return f"{result.level}: {result.message} [{result.rule}]"


def printable(text: str) -> str:
    """Text without control characters, which could speak to a terminal."""
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)


def wrapped(text: str, indent: str, following: str | None = None) -> Iterable[str]:
    """Lines of at most eighty characters, nothing in them that could speak to a terminal."""
    after = indent + "  " if following is None else following
    return textwrap.wrap(
        printable(text), WIDTH, initial_indent=indent, subsequent_indent=after, break_on_hyphens=False,
        break_long_words=False,
    ) or [indent]  # fmt: skip
