"""A comparison for a terminal of eighty columns, and as Markdown for the summary of a CI job."""

import textwrap
from collections.abc import Iterable, Iterator

from lintarsia.comparing.model import Comparison
from lintarsia.comparing.outline import ChangeItem, FileChanges, Strip, headline, outline
from lintarsia.result import Result

WIDTH = 80


def comparison_text(comparison: Comparison) -> str:
    """For a terminal."""
    lines = [*wrapped(headline(comparison), "")]
    for section in outline(comparison):
        lines += ["", *wrapped(section.heading, ""), *wrapped(section.lead, "  ")]
        for item in section.items:
            lines += ["", *wrapped(item.words, "  "), *_strips(item, "    ")]
            if item.means:
                lines += wrapped(f"if you are past it: {item.means}", "    ")
        if section.figures:
            lines += ["", "  What it comes to"]
            lines += [line for what, was, now in section.figures for line in wrapped(f"{what}: {was} → {now}", "    ")]
        for title, results in (("New results", section.new), ("Results that are gone", section.gone)):
            if results:
                lines += ["", f"  {title} ({len(results)})"]
                lines += [line for result in results for line in wrapped(_result(result), "    ")]
    return "".join(f"{printable(line).rstrip()}\n" for line in lines)


def _strips(item: ChangeItem, indent: str) -> Iterator[str]:
    for at, strip in enumerate(item.strips):
        if item.left_out and at == len(item.strips) - 1:
            yield f"{indent}… {item.left_out} more rows of the kind, and the last of them:"
        if len(item.strips) > 1:
            yield f"{indent}{strip.label}"
        yield from (f"{indent}{line}" for line in picture(strip))
        for label, words in (("was", strip.was_words), ("now", strip.now_words)):
            if words:
                yield from wrapped(f"{label}: {words}", indent, indent + "     ")


def picture(strip: Strip) -> Iterator[str]:
    """The row as letters, with carets beneath what differs."""
    left, right = ("…" if more else " " for more in strip.more)
    if strip.was:
        yield f"was {left}{strip.was}{right}".rstrip()
    if strip.now:
        yield f"now {left}{strip.now}{right}".rstrip()
    if strip.marks.strip():
        yield f"     {strip.marks}".rstrip()


def comparison_markdown(comparison: Comparison) -> str:
    """For pull and merge requests, and the summary of a job (GitHub Flavored Markdown, which GitLab reads too)."""
    lines = ["## Changes for the knitter", "", escaped_markdown(headline(comparison))]
    for section in outline(comparison):
        lines += ["", f"### {escaped_markdown(section.heading)}", "", f"**{escaped_markdown(section.lead)}**", ""]
        lines += [line for item in section.items for line in _item(item)]
        lines += _table(section)
        for title, results in (("New results", section.new), ("Results that are gone", section.gone)):
            if results:
                lines += ["", f"{title}:", "", *(f"- {escaped_markdown(_result(result))}" for result in results)]
    return "".join(f"{printable(line).rstrip()}\n" for line in lines)


def _item(item: ChangeItem) -> Iterator[str]:
    yield f"- {escaped_markdown(item.words)}" + (
        f" — *if you are past it: {escaped_markdown(item.means)}*" if item.means else ""
    )
    pictures = [line for strip in item.strips for line in [f"{strip.label}", *picture(strip), *_said(strip)]]
    if pictures:
        fence = "`" * max(3, 1 + max(_ticks(line) for line in pictures))
        yield ""
        yield from (f"  {line}" for line in [f"{fence}text", *pictures, fence])
        yield ""


def _said(strip: Strip) -> Iterator[str]:
    for label, words in (("was", strip.was_words), ("now", strip.now_words)):
        if words:
            yield f"{label}: {words}"


def _ticks(line: str) -> int:
    return max((len(run) for run in "".join(c if c == "`" else " " for c in line).split()), default=0)


def _table(section: FileChanges) -> Iterator[str]:
    if section.figures:
        yield from ("", "| What it comes to | was | now |", "|---|---:|---:|")
        for cells in section.figures:
            yield f"| {' | '.join(map(escaped_markdown, cells))} |"


def _result(result: Result) -> str:
    return f"{result.level}: {result.message} [{result.rule}]"


def escaped_markdown(text: str) -> str:
    """Text in which Markdown and HTML see nothing of theirs (CommonMark 0.31, 2.4)."""
    return "".join(f"\\{c}" if c in "\\`*_{}[]<>#|~!&@" else c for c in text)


def printable(text: str) -> str:
    """Text without control characters, which could speak to a terminal."""
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)


def wrapped(text: str, indent: str, following: str | None = None) -> Iterable[str]:
    after = indent + "  " if following is None else following
    return textwrap.wrap(
        text, WIDTH, initial_indent=indent, subsequent_indent=after, break_on_hyphens=False, break_long_words=False
    ) or [indent]
