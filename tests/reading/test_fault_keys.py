"""Every key that the reader gives a fault is explained by its rule, and nothing else is."""

import ast
from collections.abc import Iterator
from pathlib import Path

import lintarsia.reading
from lintarsia.reading.yaml_faults import _FAULTS
from lintarsia.rules.catalogue import load

MAKERS = {"cannot_read": "file/unreadable", "Finding": "file/schema", "_fault": "file/schema"}


def made() -> Iterator[tuple[str, str]]:
    """(rule, key) of every fault whose key the reader's source spells out where it makes it."""
    for path in Path(lintarsia.reading.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
                name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                if name in MAKERS:
                    yield MAKERS[name], str(node.args[0].value)
    yield from (("file/unreadable", key) for _, key, *_ in _FAULTS)
    yield from (("file/schema", key) for key in ("wrong-type", "wrong-value"))  # chosen by a variable


def test_the_rules_explain_the_readers_keys() -> None:
    for rule in ("file/unreadable", "file/schema"):
        assert {key for name, key in made() if name == rule} == set(load(rule).info.keys)
