"""Where everything stands: YAML's marks turned into regions. Worked out only when a place is asked for."""

from collections.abc import Iterator, Mapping
from typing import Any

from yaml import MappingNode, Node, ScalarNode

from lintarsia.chart import Path
from lintarsia.result import Region


def mark_region(start: Any, end: Any = None) -> Region:
    """The region between two marks; of one character where there is no end."""
    line, column = start.line + 1, start.column + 1
    if end is None:
        return Region(line, column, line, column + 1)
    return Region(line, column, end.line + 1, end.column + 1)


def node_region(node: Node) -> Region:
    """A node's own text, without the white space that YAML counts to the end of a block."""
    last = node
    while not isinstance(last, ScalarNode) and last.value and last.end_mark.column == 0:
        last = last.value[-1][1] if isinstance(last, MappingNode) else last.value[-1]
        if last is node:
            break
    start, end = node.start_mark, last.end_mark
    if isinstance(last, ScalarNode) and last.style in ("|", ">"):
        lines = last.value.count("\n") + (not last.value.endswith("\n")) if last.value else 0
        return Region(
            start.line + 1,
            start.column + 1,
            max(start.line + 1, min(last.start_mark.line + 1 + lines, end.line + 1)),
            1,
        )
    return mark_region(start, end)


class LatePlaces(Mapping[Path, Region]):
    """Regions by path, built from the nodes at the first question and never for a chart without a fault."""

    def __init__(self, root: MappingNode, *, keys: bool) -> None:
        self._root: MappingNode | None = root
        self._keys = keys
        self._regions: dict[Path, Region] = {}

    def _all(self) -> dict[Path, Region]:
        if self._root is not None:
            root, self._root = self._root, None
            self._gather(root, (), set())
        return self._regions

    def _gather(self, node: Any, path: Path, seen: set[int]) -> None:
        if id(node) in seen:
            return
        seen.add(id(node))
        if not self._keys and path:
            self._regions[path] = node_region(node)
        if isinstance(node, MappingNode):
            for key, value in node.value:
                if isinstance(key, ScalarNode) and (*path, key.value) not in self._regions:
                    if self._keys:
                        self._regions[(*path, key.value)] = node_region(key)
                    self._gather(value, (*path, key.value), seen)
        elif not isinstance(node, ScalarNode):
            for index, item in enumerate(node.value):
                self._gather(item, (*path, index), seen)

    def __getitem__(self, path: Path) -> Region:
        return self._all()[path]

    def __iter__(self) -> Iterator[Path]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    def __reduce__(self) -> tuple[type[dict[Path, Region]], tuple[dict[Path, Region]]]:
        return dict, (self._all(),)  # marks do not travel between processes; the regions do
