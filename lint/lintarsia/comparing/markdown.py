"""A comparison as Markdown for pull and merge requests and the summary of a CI job (GitHub Flavored Markdown)."""

from collections.abc import Iterator

from lintarsia.comparing.model import Comparison
from lintarsia.comparing.outline import ChangeItem, FileChanges, Strip, headline, outline
from lintarsia.comparing.text import picture, printable, result_words
from lintarsia.telling.counts import count

# "Job summaries are isolated between steps and each step is restricted to a maximum size of 1MiB" (GitHub Docs,
# Workflow commands for GitHub Actions, from memory); the rest is left for whatever else the step writes.
MOST_BYTES = 900_000


def comparison_markdown(comparison: Comparison) -> str:
    """For pull and merge requests, and the summary of a job (GitHub Flavored Markdown, which GitLab reads too)."""
    text, sections = f"## Changes for the knitter\n\n{escaped_markdown(headline(comparison))}\n", outline(comparison)
    for number, section in enumerate(sections):
        more = "".join(f"{printable(line).rstrip()}\n" for line in _section(section))
        if len((text + more).encode("utf-8", "replace")) > MOST_BYTES:
            left = count(len(sections) - number, "more file")
            return f"{text}\n*{left} left out here; the text has them all.*\n"
        text += more
    return text


def _section(section: FileChanges) -> Iterator[str]:
    yield from ("", f"### {escaped_markdown(section.heading)}", "", f"**{escaped_markdown(section.lead)}**", "")
    for item in section.items:
        yield from _item(item)
    yield from _table(section)
    for title, results in (("New results", section.new), ("Results that are gone", section.gone)):
        if results:
            yield from ("", f"{title}:", "")
            yield from (f"- {escaped_markdown(result_words(result))}" for result in results)


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


def escaped_markdown(text: str) -> str:
    """Text in which Markdown and HTML see nothing of theirs (CommonMark 0.31, 2.4)."""
    return "".join(f"\\{c}" if c in "\\`*_{}[]<>#|~!&@" else c for c in text)
