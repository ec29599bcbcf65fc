"""Benchmarks are run by hand and now and then: what they take of the package must be there by then."""

import ast
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

import pytest

BENCHMARKS = sorted((Path(__file__).parents[2] / "benchmarks").glob("*.py"))


def taken(file: Path) -> list[tuple[str, str]]:
    """(module, name) of everything that a benchmark imports from the package, wherever in it that stands."""
    found = [node for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))) if isinstance(node, ast.ImportFrom)]
    return [
        (own, one.name) for node in found if (own := node.module or "").startswith("lintarsia") for one in node.names
    ]


@pytest.mark.parametrize("file", BENCHMARKS, ids=lambda file: file.stem)
def test_a_benchmark_takes_nothing_of_the_package_that_is_not_there(file: Path) -> None:
    for module, name in taken(file):
        there = hasattr(import_module(module), name) or find_spec(f"{module}.{name}") is not None
        assert there, f"{file.name} takes {name} of {module}"


def test_benchmarks_take_something() -> None:
    assert sum(bool(taken(file)) for file in BENCHMARKS) >= 8
