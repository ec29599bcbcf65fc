"""YAML text to plain data, once: raw scalars from the nodes, every fault of the YAML itself as a finding."""

from collections.abc import Iterator
from typing import Any

from yaml import AliasEvent, MappingNode, Node, ScalarNode, YAMLError, parse
from yaml.cyaml import CParser

from lintarsia.reading.places import mark_region, node_region
from lintarsia.reading.shape import ANY, Shape
from lintarsia.reading.source import Unreadable, unreadable
from lintarsia.reading.yaml_faults import explain
from lintarsia.result import Finding

DEEPEST = 32  # a chart needs four
_INDICATORS = "[{-:?"  # every collection costs at least one of these characters


class RawParser(CParser):
    """libyaml's parser, leaving every scalar as it is written: no tag is ever guessed."""

    def resolve(self, kind: type[Node], value: str | None, implicit: object) -> None:
        """No tag; the schema says what a scalar is."""

    def descend_resolver(self, node: Node | None, index: object) -> None:
        """Nothing to prepare."""

    def ascend_resolver(self) -> None:
        """Nothing to undo."""

    def dispose(self) -> None:
        """Nothing to free; yaml.parse() asks for it."""


def compose(text: str) -> MappingNode:
    """The root mapping of the one document in `text`. Raises Unreadable with the place where YAML gave up."""
    if sum(map(text.count, _INDICATORS)) > 400:  # only then can it be deep enough to matter
        _check_depth(text)
    try:
        root = RawParser(text).get_single_node()
    except YAMLError as error:
        raise explain(error, text) from None
    if root is None:
        raise unreadable("empty", "the file is empty; expected a chart")
    if not isinstance(root, MappingNode):
        what = "a list" if not isinstance(root, ScalarNode) else "plain text" if root.value else "nothing"
        raise unreadable(
            "not-a-mapping",
            f"the file holds {what}; expected `key: value` lines such as `lintarsia: 1`",
            node_region(root),
        )
    return root


def _check_depth(text: str) -> None:
    depth = 0
    try:
        for event in parse(text, Loader=RawParser):  # type: ignore[arg-type]
            step = _STEP.get(type(event).__name__, 0)
            depth += step
            if depth > DEEPEST:
                raise unreadable(
                    "too-deep",
                    f"the file nests more than {DEEPEST} levels deep; a chart needs four",
                    mark_region(event.start_mark),
                )
    except YAMLError as error:
        raise explain(error, text) from None


_STEP = {"SequenceStartEvent": 1, "MappingStartEvent": 1, "SequenceEndEvent": -1, "MappingEndEvent": -1}


class Tree:
    """Builds plain data from nodes. `findings` gathers what is wrong with the YAML while the rest is still read."""

    def __init__(self, text: str) -> None:
        self.findings: list[Finding] = []
        self._seen: set[int] | None = None
        if "*" in text:  # there may be aliases: their own places are known to the events only
            self._seen = set()
            self._aliases: Iterator[AliasEvent] = (
                event
                for event in parse(text, Loader=RawParser)  # type: ignore[arg-type]
                if isinstance(event, AliasEvent)
            )

    def build(self, node: Any, shape: Shape) -> Any:
        """The plain data of a node: dict, list, str, or a number where the shape asks for one; None where empty."""
        if self._seen is not None and self._again(node):
            return None
        if node.tag is not None:
            self._fault("tag", f"the tag {_short_tag(node.tag)} is not used in charts", node)
        if node.__class__ is ScalarNode:
            value = node.value
            if node.style:
                return value
            if not value:
                return None
            return value if shape.text else shape.scalar(value)
        if node.__class__ is MappingNode:
            return self._mapping(node, shape)
        items = shape.items or ANY
        return [self.build(item, items) for item in node.value]

    def _mapping(self, node: MappingNode, shape: Shape) -> dict[str, Any]:
        members = shape.members
        others = shape.others or ANY
        built: dict[str, Any] = {}
        for key_node, value_node in node.value:
            if key_node.__class__ is not ScalarNode:
                self._fault("key-not-text", "a list or a mapping stands where a key belongs; expected text", key_node)
                continue
            if self._seen is not None and self._again(key_node):
                continue
            key = key_node.value
            if key_node.tag is not None:
                self._fault("tag", f"the tag {_short_tag(key_node.tag)} is not used in charts", key_node)
            if key in built:
                first = next(k for k, _ in node.value if k.value == key)
                self._fault(
                    "duplicate-key",
                    f"{key!r} stands twice here, first on line {first.start_mark.line + 1}; expected once",
                    key_node,
                )
                self.build(value_node, ANY)  # for its own faults, and to keep count of aliases
                continue
            built[key] = self.build(value_node, members.get(key, others))
        return built

    def _again(self, node: Node) -> bool:
        assert self._seen is not None
        if id(node) not in self._seen:
            self._seen.add(id(node))
            return False
        event = next(self._aliases)
        self.findings.append(
            Finding(
                "alias",
                f"*{event.anchor} refers to another place; expected the value itself",
                mark_region(event.start_mark, event.end_mark),
                remedy="write the value out where it is used",
            )
        )
        return True

    def _fault(self, key: str, message: str, node: Node) -> None:
        self.findings.append(Finding(key, message, node_region(node)))


def _short_tag(tag: str) -> str:
    return tag.replace("tag:yaml.org,2002:", "!!")


__all__ = ["DEEPEST", "Tree", "Unreadable", "compose"]
