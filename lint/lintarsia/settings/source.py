"""A settings file as nodes that know their place, and the one way in which it complains."""

from collections.abc import Iterator, Sequence
from typing import Any, NoReturn

import yaml

from lintarsia.trouble import Trouble, did_you_mean

MAX_SETTINGS_BYTES = 2**20


class Source:
    """Gives the parts of one settings file; each complaint is a Trouble that names file, line and column."""

    def __init__(self, file: str) -> None:
        self.file = file

    def root(self) -> Any:
        """The file's top node, None where the file is empty."""
        try:
            with open(self.file, "rb") as stream:
                data = stream.read(MAX_SETTINGS_BYTES + 1)
        except OSError as failure:
            raise Trouble(f"{self.file}: cannot be read ({failure.strerror or failure})") from None
        if len(data) > MAX_SETTINGS_BYTES:
            raise Trouble(f"{self.file}: is larger than a settings file can be (1 MiB)")
        try:
            return yaml.compose(data.decode("utf-8-sig"), Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
        except UnicodeDecodeError as failure:
            raise Trouble(f"{self.file}: is not UTF-8 text (byte {failure.start + 1})") from None
        except yaml.MarkedYAMLError as failure:
            mark = failure.problem_mark or failure.context_mark
            place = f"{self.file}:{mark.line + 1}:{mark.column + 1}" if mark else self.file
            raise Trouble(f"{place}: is not YAML: {failure.problem or failure.context}") from None
        except (yaml.YAMLError, RecursionError) as failure:
            raise Trouble(f"{self.file}: is not YAML: {' '.join(str(failure).split())}") from None

    def fail(self, node: Any, message: str) -> NoReturn:
        """Raise the complaint about a node."""
        mark = node.start_mark
        raise Trouble(f"{self.file}:{mark.line + 1}:{mark.column + 1}: {message}")

    def items(self, node: Any, what: str, known: Sequence[str] | None = None) -> Iterator[tuple[str, Any, Any]]:
        """(key, key node, value node) of a mapping; refuses keys met twice, and those not in `known` where it is given."""
        if _empty(node):
            return
        if not isinstance(node, yaml.MappingNode):
            self.fail(node, f"{what} must be a mapping of names to values, not {_kind(node)}")
        seen: set[str] = set()
        for key_node, value in node.value:
            key = self.text(key_node, f"a key of {what}")
            if key in seen:
                self.fail(key_node, f"{key!r} is given twice")
            if known is not None and key not in known:
                self.fail(key_node, f"{what} has no key {key!r}{did_you_mean(key, known)}")
            seen.add(key)
            yield key, key_node, value

    def text(self, node: Any, what: str) -> str:
        """A scalar's own characters, whatever type YAML would make of them."""
        if not isinstance(node, yaml.ScalarNode):
            self.fail(node, f"{what} must be a single value, not {_kind(node)}")
        return str(node.value)

    def nodes(self, node: Any, what: str) -> list[Any]:
        """The entries of a list."""
        if _empty(node):
            return []
        if not isinstance(node, yaml.SequenceNode):
            self.fail(node, f"{what} must be a list, not {_kind(node)}")
        return list(node.value)

    def texts(self, node: Any, what: str) -> tuple[str, ...]:
        """A list of texts; a single text stands for a list of one."""
        if isinstance(node, yaml.ScalarNode) and not _empty(node):
            return (node.value,)
        return tuple(self.text(entry, f"an entry of {what}") for entry in self.nodes(node, what))


def _empty(node: Any) -> bool:
    return node is None or (isinstance(node, yaml.ScalarNode) and node.tag.endswith(":null"))


def _kind(node: Any) -> str:
    if isinstance(node, yaml.MappingNode):
        return "a mapping"
    return "a list" if isinstance(node, yaml.SequenceNode) else f"{node.value!r}"
