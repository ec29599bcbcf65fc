"""YAML text to plain data, once: raw scalars from the nodes, every fault of the YAML itself as a finding."""

import re
from collections.abc import Iterator
from typing import Any

from yaml import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    Event,
    MappingNode,
    Node,
    ScalarNode,
    YAMLError,
)
from yaml.cyaml import CParser  # type: ignore[attr-defined]

from lintarsia.reading.phrases import quoted, said
from lintarsia.reading.places import mark_region, node_region
from lintarsia.reading.shape import ANY, Shape
from lintarsia.reading.source import CannotRead, cannot_read
from lintarsia.result import Edit, Finding, Fix, Region

DEEPEST = 32  # a chart needs four
MOST_FINDINGS = 200  # of one kind in one file; nobody mends more at a time
MOST_EVENTS = 300_000  # of the parser; keeps a small file from filling the memory
_BEGIN = "begin with `lintarsia: 1` and `title: …`, each on a line of its own; `lintarsia bring` makes such files too"
_WHOLE, _REST = re.compile(r"-?[0-9]+", re.ASCII), re.compile(r"[0-9]+( ?[a-z]+)?", re.ASCII)
_INDICATORS = "[{-:?"  # every collection costs at least one of these characters


class RawParser(CParser):
    """libyaml's parser, leaving every scalar as it is written: no tag is ever guessed."""

    def resolve(self, kind: type[Node], value: str | None, implicit: object) -> None:
        """No tag; the schema says what a scalar is."""

    def descend_resolver(self, node: Node | None, index: object) -> None:
        """Nothing to prepare."""

    def ascend_resolver(self) -> None:
        """Nothing to undo."""


def compose(text: str) -> MappingNode:
    """The root mapping of the one document in `text`. Raises CannotRead with the place where YAML gave up."""
    if sum(map(text.count, _INDICATORS)) > 2000 or text.count(",") + text.count("\n") > MOST_EVENTS // 4:
        _check_bulk(text)  # only then could composing run out of stack or memory
    try:
        root = RawParser(text).get_single_node()
    except YAMLError as error:
        from lintarsia.reading.yaml_faults import explain

        raise explain(error, text) from None
    if root is None or (isinstance(root, ScalarNode) and not root.value and not root.style):
        raise cannot_read("empty", "the file is empty; expected `key: value` lines", remedy=_BEGIN)
    if not isinstance(root, MappingNode):
        what = "plain text" if isinstance(root, ScalarNode) else "a list"
        raise cannot_read(
            "not-a-mapping",
            f"the file holds {what}; expected `key: value` lines",
            node_region(root, text),
            _BEGIN,
        )
    return root


def _events(text: str) -> Iterator[Event]:
    parser = RawParser(text)
    while parser.check_event():
        event = parser.get_event()
        assert event is not None
        yield event


def _check_bulk(text: str) -> None:
    depth = 0
    try:
        for number, event in enumerate(_events(text)):
            if number > MOST_EVENTS:
                raise cannot_read("too-large", "the file has far more entries than a chart needs; they are not read")
            depth += isinstance(event, CollectionStartEvent) - isinstance(event, CollectionEndEvent)
            if depth > DEEPEST:
                raise _too_deep(event.start_mark)
    except YAMLError as error:
        from lintarsia.reading.yaml_faults import explain

        raise explain(error, text) from None


def _too_deep(mark: Any) -> CannotRead:
    return cannot_read(
        "too-deep", f"the file nests more than {DEEPEST} levels deep; four are needed", mark_region(mark)
    )


class Tree:
    """Builds plain data from nodes. `findings` gathers what is wrong with the YAML while the rest is still read.

    `cut` holds the regions of the keys whose value was left out here, and reported, so that nobody reports it again.
    """

    def __init__(self, text: str) -> None:
        self.findings: list[Finding] = []
        self.cut: set[Region] = set()
        self._text = text
        self._seen: set[int] | None = None
        if "*" in text:  # there may be aliases, whose own places are known to the events only
            self._seen = set()
            self._aliases = (event for event in _events(text) if isinstance(event, AliasEvent))

    def build(self, node: Any, shape: Shape, depth: int = 1) -> Any:
        """The plain data of a node: dict, list, str, or a number where the shape asks for one; None where empty."""
        if self._seen is not None and self._again(node) and node.__class__ is not ScalarNode:
            return None  # following it could be endless
        if node.tag is not None:
            self._tag(node, "value")
        if node.__class__ is ScalarNode:
            value = node.value
            if node.style:
                return value
            if not value:
                return None
            return value if shape.text else shape.scalar(value)
        if depth > DEEPEST:
            raise _too_deep(node.start_mark)
        if node.__class__ is MappingNode:
            return self._mapping(node, shape, depth)
        items = shape.items or ANY
        return [self.build(item, items, depth + 1) for item in node.value]

    def _mapping(self, node: MappingNode, shape: Shape, depth: int) -> dict[str, Any]:
        members = shape.members
        others = shape.others or ANY
        built: dict[str, Any] = {}
        first_lines: dict[str, int] = {}
        before: Any = None
        for key_node, value_node in node.value:
            if not is_text(key_node):
                self._fault("key-not-text", "a list or a mapping stands where a key belongs; expected text", key_node)
                self._look_through(depth, key_node, value_node)
                continue
            key = key_node.value
            if self._seen is not None:
                self._again(key_node)
                if id(value_node) in self._seen and value_node.__class__ is not ScalarNode:
                    self.cut.add(node_region(key_node, self._text))
            if key_node.tag is not None:
                self._tag(key_node, "key")
            if (
                node.flow_style
                and built
                and not value_node.value
                and self._decimal_comma(before, (key_node, value_node))
            ):
                built[before[0].value] = None
                continue
            before = key_node, value_node
            if key in built:
                if not first_lines:
                    first_lines = {k.value: k.start_mark.line + 1 for k, _ in reversed(node.value) if is_text(k)}
                message = f"{quoted(key)} stands here twice, first on line {first_lines[key]}; expected once"
                self._fault("duplicate-key", message, key_node, "take one of the two out, or give it a name of its own")
                self._look_through(depth, value_node)
                continue
            built[key] = self.build(value_node, members.get(key, others), depth + 1)
        return built

    def _decimal_comma(self, before: Any, pair: Any) -> bool:
        """Whether `21,5` was written for 21.5: between braces, the comma ends the value and `5` is taken for a key."""
        (name, whole), (rest, nothing) = before, pair
        if any(n.__class__ is not ScalarNode or n.style for n in (whole, rest, nothing)):
            return False
        comma = Region(
            whole.end_mark.line + 1, whole.end_mark.column + 1, rest.start_mark.line + 1, rest.start_mark.column + 1
        )
        if not _WHOLE.fullmatch(whole.value) or not _REST.fullmatch(rest.value) or comma.end_column - comma.column != 1:
            return False
        self.cut.add(node_region(name, self._text))
        meant = f"{whole.value}.{rest.value}"
        region = mark_region(whole.start_mark, rest.end_mark)
        if len(self.findings) < MOST_FINDINGS:
            found = quoted(f"{whole.value},{rest.value}")
            message = f"{said(name.value)}: the comma in {found} ends the number; expected a point"
            fix = Fix(f"write {meant}", (Edit(comma, "."),), safe=False)  # it may have parted thousands
            remedy = f"write a point for the decimals, {meant}, and nothing between thousands"
            self.findings.append(Finding("decimal-comma", message, region, remedy=remedy, fixes=(fix,)))
        return True

    def _look_through(self, depth: int, *nodes: Any) -> None:
        """Find the faults of nodes whose data is not wanted, and keep count of the aliases in them."""
        for node in nodes:
            self.build(node, ANY, depth + 1)

    def _again(self, node: Node) -> bool:
        """Whether this node was met before, which is an alias and a fault."""
        assert self._seen is not None
        if id(node) not in self._seen:
            self._seen.add(id(node))
            return False
        event = next(self._aliases)
        if len(self.findings) < MOST_FINDINGS:
            message = f"*{event.anchor} refers to another place; expected the value itself"
            region = mark_region(event.start_mark, event.end_mark)
            self.findings.append(Finding("alias", message, region, remedy="write the value out where it is used"))
        return True

    def _tag(self, node: Node, what: str) -> None:
        tag = said(node.tag.replace("tag:yaml.org,2002:", "!!"))
        self._fault("tag", f"the tag {tag} is of no use here; expected the bare {what}", node)

    def _fault(self, key: str, message: str, node: Node, remedy: str | None = None) -> None:
        if len(self.findings) < MOST_FINDINGS:
            self.findings.append(Finding(key, message, node_region(node, self._text), remedy=remedy))


def is_text(node: Node) -> bool:
    """Whether a key's node is the plain text that a key should be."""
    return node.__class__ is ScalarNode
