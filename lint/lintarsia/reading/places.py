"""Where everything stands: YAML's marks turned into regions. Worked out only when a place is asked for."""

from collections.abc import Iterator, Mapping
from typing import Any

from yaml import MappingNode, Node, ScalarNode, SequenceNode

from lintarsia.chart import Path
from lintarsia.reading.source import split_lines
from lintarsia.result import NOWHERE, Region

MOST_WALKS = 16


def mark_region(start: Any, end: Any = None) -> Region:
    """The region between two marks; of one character where there is no end."""
    line, column = start.line + 1, start.column + 1
    if end is None:
        return Region(line, column, line, column + 1)
    return Region(line, column, end.line + 1, end.column + 1)


def node_region(node: Node, text: str) -> Region:
    """A node's own text. YAML counts the white space and comments after a block to the block; we do not."""
    last = _last(node)
    start = _position(node.start_mark, text)
    if not isinstance(last, ScalarNode) or last.style not in ("|", ">"):
        # An empty value is marked where the parser noticed that it was missing, perhaps before its holder.
        return Region(*start, *max(start, _position(last.end_mark, text)))
    own = split_lines(text[last.start_mark.index : last.end_mark.index].rstrip())
    column = len(own[-1]) + (last.start_mark.column if len(own) == 1 else 0)
    return Region(*start, last.start_mark.line + len(own), column + 1)


def _position(mark: Any, text: str) -> tuple[int, int]:
    """Line and column of a mark, counted from 1. The parser's mark for the end of a file can lie beyond it."""
    if mark.index < len(text):
        return mark.line + 1, mark.column + 1
    lines = split_lines(text)
    return len(lines), len(lines[-1]) + 1


def _last(node: Any) -> Node:
    """The scalar or bracketed collection that a node's text ends with."""
    seen = set()  # an alias can make a collection contain itself
    while node.value and not isinstance(node, ScalarNode) and not node.flow_style and id(node) not in seen:
        seen.add(id(node))
        node = node.value[-1][1] if isinstance(node, MappingNode) else node.value[-1]
    assert isinstance(node, Node)
    return node


class LatePlaces(Mapping[Path, Region]):
    """Regions by path, worked out at the first question and never for a chart without a fault."""

    def __init__(self, root: MappingNode, text: str, *, keys: bool) -> None:
        self._nodes: MappingNode | None = root
        self._text = text
        self._keys = keys
        self._regions: dict[Path, Region] = {}
        self._asked = 0

    def _all(self) -> dict[Path, Region]:
        if self._nodes is not None:
            root, self._nodes = self._nodes, None
            self._gather(root, (), NOWHERE, set())
            self._text = ""
        return self._regions

    def _gather(self, node: Any, path: Path, near: Region, seen: set[int]) -> None:
        """`near` is the region of the value's key, which stands in for a value that is an alias."""
        again = id(node) in seen
        if path and not self._keys:
            self._regions[path] = near if again else node_region(node, self._text)
        if again:
            return
        seen.add(id(node))
        if isinstance(node, MappingNode):
            met = set()
            for key, value in node.value:
                if isinstance(key, ScalarNode) and key.value not in met:
                    met.add(key.value)
                    region = node_region(key, self._text)
                    if self._keys:
                        self._regions[(*path, key.value)] = region
                    self._gather(value, (*path, key.value), region, seen)
        elif not isinstance(node, ScalarNode):
            for index, item in enumerate(node.value):
                self._gather(item, (*path, index), near, seen)

    def __getitem__(self, path: Path) -> Region:
        self._asked += 1
        # With an alias, what comes first matters; and many walks cost more than gathering all places once.
        if self._nodes is None or self._asked > MOST_WALKS or "*" in self._text:
            return self._all()[path]
        return self._walk(self._nodes, path)

    def _walk(self, root: MappingNode, path: Path) -> Region:
        """One region without the others: most charts with a result ask for one or two."""
        node: Any = root
        key: Any = None
        for step in path:
            if isinstance(node, MappingNode):
                for key, value in node.value:
                    if key.value == step and isinstance(key, ScalarNode):
                        node = value
                        break
                else:
                    node = None
            elif isinstance(node, SequenceNode) and isinstance(step, int) and 0 <= step < len(node.value):
                key, node = None, node.value[step]
            else:
                node = None
            if node is None:
                raise KeyError(path)
        found = key if self._keys else (node if path else None)
        if found is None:
            raise KeyError(path)
        return node_region(found, self._text)

    def __iter__(self) -> Iterator[Path]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    def __reduce__(self) -> tuple[type[dict[Path, Region]], tuple[dict[Path, Region]]]:
        return dict, (self._all(),)  # nodes do not travel between processes; the regions do
