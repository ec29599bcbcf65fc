"""Edits that fit the file's own layout: an entry taken out or added, a key put first, each as regions and text."""

import re
from collections.abc import Sequence
from typing import Any

from yaml import MappingNode, ScalarNode, SequenceNode

from lintarsia.chart import Path
from lintarsia.reading.places import node_region
from lintarsia.reading.source import Lines
from lintarsia.result import Edit, Region

# Compiled where they are used: most runs edit nothing.
_REST_OF_ENTRY = r"[ \t]*:?[ \t]*,?[ \t]*(?:(?<=[ \t])#[^\r\n]*)?(?=[\r\n]|\Z)"
_BREAK = "\r\n|\n|\r"


class Editing:
    """Every answer is None where the layout leaves a doubt; whoever applies an edit reads the text again all the same.

    Added text breaks its lines as the file does.
    """

    def __init__(self, root: MappingNode, text: str) -> None:
        self._root = root
        self._text = text
        self._late: Lines | None = None

    def __reduce__(self) -> tuple[type[None], tuple[()]]:
        return type(None), ()  # nodes do not travel between processes; who reads the file there can edit it

    @property
    def _lines(self) -> Lines:
        if self._late is None:
            self._late = Lines(self._text)
        return self._late

    @property
    def line_break(self) -> str:
        found = re.search(_BREAK, self._text)
        return found[0] if found else "\n"

    def spelling(self, path: Path) -> str | None:
        """A key as the file spells it, quotes and all."""
        found = self._pair(path)
        return self._text[found[1].start_mark.index : found[1].end_mark.index] if found else None

    def keys(self, path: Path = ()) -> tuple[str, ...] | None:
        """The keys of a mapping, the whole file's where no path is given; None where no mapping stands there."""
        found = self._pair(path) if path else (None, None, self._root)
        if found is None or not isinstance(found[2], MappingNode):
            return None
        return tuple(key.value for key, _ in found[2].value if isinstance(key, ScalarNode))

    def value(self, path: Path) -> str | None:
        """A plain value as the parser reads it, never a number; None where a list or a mapping stands there."""
        found = self._pair(path)
        return str(found[2].value) if found and isinstance(found[2], ScalarNode) else None

    def length(self, path: Path) -> int | None:
        """How many entries a list has; None where no list stands there."""
        found = self._pair(path)
        return len(found[2].value) if found and isinstance(found[2], SequenceNode) else None

    def taking_out(self, path: Path) -> Edit | None:
        """A mapping's entry deleted. Its whole line, comment behind it and all, where it stands there alone.

        None for the last entry that is left, and where a comment of its own line would go with it.
        """
        found = self._pair(path)
        if found is None or len(found[0].value) < 2:
            return None
        holder, key, value = found
        start, end = key.start_mark.index, self._end(key, value)
        if end is None:
            return None
        whole = self._whole_lines(start, end)
        if whole is not None or not holder.flow_style:
            return whole
        return self._among_neighbours(holder, key, start, end)

    def adding(self, path: Path, *entries: str) -> Edit | None:
        """`entries` put behind the last one of a mapping or a list; a list's entries come without their dashes."""
        found = self._pair(path)
        if found is None or isinstance(found[2], ScalarNode) or found[2].start_mark.index < found[1].end_mark.index:
            return None
        holder = found[2]
        if not holder.value:
            return self._insert(holder.start_mark.index + 1, ", ".join(entries)) if holder.flow_style else None
        last = holder.value[-1]
        key, value = last if isinstance(holder, MappingNode) else (None, last)
        end = self._end(key, value)
        if end is None:
            return None
        if holder.flow_style:
            return self._insert(end, "".join(f", {entry}" for entry in entries))
        dash = "- " if isinstance(holder, SequenceNode) else ""
        margin = " " * holder.start_mark.column
        return self._insert(self._line_end(end), "".join(f"{self.line_break}{margin}{dash}{e}" for e in entries))

    def replacing(self, path: Path, value: str) -> Edit | None:
        """Another value for a key that has a plain one of its own."""
        found = self._pair(path)
        if found is None or not isinstance(found[2], ScalarNode):
            return None
        end = self._end(*found[1:])
        return None if end is None else self._replace(found[2].start_mark.index, end, value)

    def shortening(self, path: Path, length: int) -> Edit | None:
        """A list cut behind its entry number `length`, from 1; None where a comment would go with the rest."""
        found = self._pair(path)
        if found is None or not isinstance(found[2], SequenceNode) or not 1 <= length < len(found[2].value):
            return None
        start, end = self._end(None, found[2].value[length - 1]), self._end(None, found[2].value[-1])
        if start is None or end is None or start > end or "#" in self._text[start:end]:
            return None
        return self._replace(start, end, "")

    def putting_first(self, name: str, value: str) -> Edit | None:
        """A key put before all others of the file, below the comments that head it."""
        if not self._root.value:
            return None
        first = self._root.value[0][0]
        if self._root.flow_style:
            return self._insert(self._root.start_mark.index + 1, f'"{name}": {value}, ')
        start = self._line_start(first.start_mark.index)
        margin = self._text[start : first.start_mark.index]
        if margin.strip(" ") or self._text[first.start_mark.index] == "?":
            return None
        return self._insert(start, f"{margin}{name}: {value}{self.line_break}")

    def section_before(self, name: str, lines: tuple[str, ...]) -> Edit | None:
        """Lines of their own put before a key of the file, which has to begin its line at the margin."""
        found = self._pair((name,))
        if found is None or self._root.flow_style or found[1].start_mark.column:
            return None
        text = "".join(line + self.line_break for line in lines)
        return self._insert(found[1].start_mark.index, text)

    def section_after(self, before: str, name: str, entries: Sequence[str]) -> Edit | None:
        """A new section of the file, such as `supplies`, right behind another; each entry as `key: value`."""
        found = self._pair((before,))
        end = self._end(*found[1:]) if found else None
        if found is None or end is None:
            return None
        _, key, value = found
        margin = self._text[self._line_start(key.start_mark.index) : key.start_mark.index]
        if self._root.flow_style:
            gap = " " if margin.strip() else self.line_break + margin
            return self._insert(end, f',{gap}"{name}": {{{", ".join(entries)}}}')
        if margin.strip(" "):
            return None
        lined = isinstance(value, MappingNode) and value.value and not value.flow_style
        step = margin + " " * (value.start_mark.column - key.start_mark.column if lined else 2)
        lines = (f"{margin}{name}:", *(step + entry for entry in entries))
        return self._insert(self._line_end(end), "".join(self.line_break + line for line in lines))

    def _pair(self, path: Path) -> tuple[MappingNode, Any, Any] | None:
        """The mapping that holds a key, the key, its value; None where there are two of the name."""
        node: Any = self._root
        found = None
        for step in path:
            if not isinstance(node, MappingNode):
                return None
            pairs = [pair for pair in node.value if isinstance(pair[0], ScalarNode) and pair[0].value == step]
            if len(pairs) != 1:
                return None
            found = (node, *pairs[0])
            node = pairs[0][1]
        return found

    def _end(self, key: Any, value: Any) -> int | None:
        """Where an entry's own text ends; None for an alias, whose marks are those of another place."""
        if key is not None and isinstance(value, ScalarNode) and not value.value and not value.style:
            return int(key.end_mark.index)  # an empty value is marked wherever the parser noticed
        region = node_region(value, self._text)
        end = self._lines.index(region.end_line, region.end_column)
        start = value.start_mark.index
        return end if start <= end and (key is None or key.end_mark.index <= start) else None

    def _whole_lines(self, start: int, end: int) -> Edit | None:
        first, rest = self._line_start(start), re.compile(_REST_OF_ENTRY).match(self._text, end)
        if rest is None or self._text[first:start].strip(" "):
            return None
        if any(line.lstrip(" ").startswith("#") for line in re.split(_BREAK, self._text[first:end])[1:]):
            return None
        line_break = re.compile(_BREAK).match(self._text, rest.end())
        if line_break:
            return self._replace(first, line_break.end(), "")
        before = first - (2 if self._text.endswith("\r\n", 0, first) else 1)  # the file ends here: its end stays bare
        return self._replace(max(before, 0), rest.end(), "")

    def _among_neighbours(self, holder: MappingNode, key: Any, start: int, end: int) -> Edit | None:
        """An entry of a mapping in braces, with the comma that parts it from a neighbour in its line."""
        at = next(i for i, pair in enumerate(holder.value) if pair[0] is key)
        if at + 1 < len(holder.value):
            after = holder.value[at + 1][0].start_mark.index
            if self._only_comma(end, after):
                return self._replace(start, after, "")
        if at:
            before = self._end(*holder.value[at - 1])
            if before is not None and self._only_comma(before, start):
                return self._replace(before, end, "")
        return None

    def _only_comma(self, start: int, end: int) -> bool:
        return start < end and self._text[start:end].replace(" ", "") in (",", ":,")

    def _line_start(self, index: int) -> int:
        return self._lines.index(self._lines.position(index)[0], 1)

    def _line_end(self, index: int) -> int:
        found = re.compile(_BREAK).search(self._text, index)
        return found.start() if found else len(self._text)

    def _insert(self, index: int, text: str) -> Edit:
        return self._replace(index, index, text)

    def _replace(self, start: int, end: int, text: str) -> Edit:
        return Edit(Region(*self._lines.position(start), *self._lines.position(end)), text)
