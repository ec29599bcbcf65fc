"""The `written:` section: rows under their keys, or a page of rows as it was printed, line by line."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from yaml import ScalarNode

from lintarsia.chart import WrittenEntry
from lintarsia.reading.phrases import quoted
from lintarsia.reading.row_keys import RowKey, read_half, row_key
from lintarsia.reading.source import split_lines
from lintarsia.result import Finding, Region

_MARKED = re.compile(r"^\s*[-*•]\s+\*\*(?P<label>[^*]*?):?\*\*:?\s*(?P<words>.*)$")  # - **Row 1 (RS):** k3 A
_ESCAPED = re.compile(r"\\([\\`*_{}\[\]<>#|~&!$])")
_ROW_WORD = re.compile(
    r"^[\s*•-]*(?:(?:right|left)[^0-9:.;]{0,30}?)?(?:(?:RS|WS)\s+)?(?:rows?|rnds?|rounds?)\s*[0-9]", re.IGNORECASE
)
_LABELLED = re.compile(r"^\s*(?P<label>[^:.]{1,60}):\s*(?P<words>.*)$")


def block_lines(node: Any, text: str) -> list[tuple[str, Region]]:
    """The lines of a block of text, each with its place; [] for anything else."""
    if node.__class__ is not ScalarNode or node.style != "|":
        return []
    first, source = node.start_mark.line + 1, split_lines(text)
    lines = []
    for at, line in enumerate(node.value.rstrip("\n").split("\n"), first):
        column = len(source[at]) - len(line) + 1
        lines.append((line, Region(at + 1, column, at + 1, column + len(line))))
    return lines


def written_entries(
    data: Any, lines: Sequence[tuple[str, Region]], height: int, side: Callable[[int], str]
) -> tuple[WrittenEntry, ...]:
    """What is written, entry by entry. Keys are well formed: the schema has seen to that."""
    entries: Iterator[tuple[str, RowKey, str, Region | None]]
    entries = _keyed(data) if isinstance(data, Mapping) else _printed(lines)
    return tuple(
        WrittenEntry(said, key.meant(height, side), words, region, bool(key.all_side), key.half)
        for said, key, words, region in entries
    )


def _keyed(data: Mapping[str, str | None]) -> Iterator[tuple[str, RowKey, str, Region | None]]:
    for said, words in data.items():
        key = row_key(said)
        if key is not None and words is not None:
            yield said, key, words, None


def _printed(lines: Sequence[tuple[str, Region]]) -> Iterator[tuple[str, RowKey, str, Region | None]]:
    """Lines that begin with the rows that they are for. What stands before the first of them is heading and key; a
    line without a label goes on with the row above it, as where a page was too narrow. A line that is only the name of
    a side of an opening is the heading of the rows below it.
    """
    strictly = any(_ROW_WORD.search(line) for line, _ in lines)  # `R1` may be a supply in the page's key
    found: list[tuple[str, RowKey, str, Region]] = []
    under = ""
    for line, region in lines:
        if (heading := _heading(line)) is not None:
            under = heading
            continue
        match = _MARKED.match(line)
        if match:
            words = _ESCAPED.sub(r"\1", match["words"])
            line = f"{match['label']}: {words}"
        match = _LABELLED.match(line)
        key = row_key(match["label"]) if match and (not strictly or _ROW_WORD.match(line)) else None
        if match and key:
            key = key if key.half else replace(key, half=under)
            found.append((match["label"].strip(), key, line.strip(), region))
        elif found and line.strip():
            said, key, words, place = found[-1]
            found[-1] = said, key, f"{words} {line.strip()}", Region(*place[:2], *region[2:])
    yield from found


def _heading(line: str) -> str | None:
    """The side of an opening that a line names and does no more, as the chart shows it; "" for both sides together."""
    text = line.strip().strip("#*•-_:. ")
    if re.fullmatch(r"(?:both sides|both neck sides|sides together)", text, re.IGNORECASE):
        return ""
    half, behind = read_half(text)
    return half if half and behind == len(text) and len(text.split()) > 1 else None


def words_by_row(entries: Sequence[WrittenEntry]) -> dict[int, str]:
    """The words of each row. Words for every row of a side give way to a row's own; of two others the first stands."""
    return {row: words for (row, half), words in _by_place(entries).items() if not half}


def words_by_side(entries: Sequence[WrittenEntry]) -> dict[tuple[int, str], str]:
    """The words of each side of an opening, by row and side."""
    return {place: words for place, words in _by_place(entries).items() if place[1]}


def _by_place(entries: Sequence[WrittenEntry]) -> dict[tuple[int, str], str]:
    places: dict[tuple[int, str], str] = {}
    for entry in sorted(entries, key=lambda entry: entry.names_all):
        for row in entry.rows:
            places.setdefault((row, entry.half), entry.words)
    return places


def written_twice(entries: Sequence[WrittenEntry], place: Callable[[WrittenEntry], Region]) -> Iterator[Finding]:
    """Rows that two entries name."""
    owners: dict[tuple[int, str], WrittenEntry] = {}
    for entry in (entry for entry in entries if not entry.names_all):
        again = [row for row in entry.rows if (row, entry.half) in owners]
        if again:
            first = owners[again[0], entry.half].said
            more = f" and {len(again) - 1} more" if len(again) > 1 else ""
            twice = f"is written under {quoted(first)} and again under {quoted(entry.said)}"
            message = f"row {again[0]}{more} {twice}; expected once"
            yield Finding("written-twice", message, place(entry), remedy="leave the row to one of the two")
        owners.update({(row, entry.half): entry for row in entry.rows if (row, entry.half) not in owners})
