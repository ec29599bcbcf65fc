"""The import graph of the package, drawn by networkx: nobody imports in a circle."""

import ast
from collections.abc import Iterator
from pathlib import Path

import networkx as nx

import lintarsia

PACKAGE = Path(lintarsia.__file__).parent


def modules(package: Path) -> dict[str, Path]:
    """Every module of a package by its full name."""
    found = {}
    for file in package.rglob("*.py"):
        parts = [package.name, *file.relative_to(package).with_suffix("").parts]
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = file
    return found


def imported(file: Path, known: dict[str, Path]) -> Iterator[str]:
    """The modules that a file imports anywhere: at its head, inside functions, for its types alone."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names if name.name in known)
        elif isinstance(node, ast.ImportFrom) and node.module:
            inner = {f"{node.module}.{name.name}" for name in node.names} & set(known)
            yield from inner or ({node.module} & set(known))


def circles(package: Path) -> list[list[str]]:
    known = modules(package)
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_edges_from((name, other) for name, file in known.items() for other in imported(file, known))
    graph.remove_edges_from(list(nx.selfloop_edges(graph)))
    return [sorted(group) for group in nx.strongly_connected_components(graph) if len(group) > 1]


def test_no_file_imports_in_a_circle() -> None:
    assert circles(PACKAGE) == []


def test_a_circle_is_seen_wherever_its_imports_stand(tmp_path: Path) -> None:
    package = tmp_path / "toy"
    package.mkdir()
    texts = {
        "__init__": "",
        "one": "from toy import two\n",
        "two": "def late():\n    from toy.three import x\n",
        "three": "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import toy.one\nx = 1\n",
        "four": "import toy.one\n",
    }
    for name, text in texts.items():
        (package / f"{name}.py").write_text(text, encoding="utf-8")
    assert circles(package) == [["toy.one", "toy.three", "toy.two"]]
