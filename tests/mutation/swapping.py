"""Chooses mutants, makes a mutant's code, and puts it in the place of a living function."""

import argparse
import ast
import importlib
import random
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

from operators import Mutant, mutants_of

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "lint" / "lintarsia"
TREES: dict[int, ast.Module] = {}  # of each mutant's module, by the mutant's id


def module_files(part: str) -> list[Path]:
    path = PACKAGE / part
    return sorted(path.glob("*.py")) if path.is_dir() else [path]


def chosen(asked: argparse.Namespace) -> Iterator[tuple[Path, Mutant, str]]:
    """(file, mutant, name) of every mutant asked for, or of a sample."""
    every = []
    for path in [file for part in asked.parts for file in module_files(part)]:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        seen: dict[str, int] = defaultdict(int)
        for mutant in mutants_of(tree):
            name = f"{path.relative_to(PACKAGE)}:{mutant.line} {mutant.function}: {mutant.what}"
            seen[name] += 1
            every.append((path, mutant, name if seen[name] == 1 else f"{name} ({seen[name]})"))
            TREES[id(mutant)] = tree
    random.Random(asked.seed).shuffle(every)  # so that a run that was broken off is a fair sample
    every = every[: asked.sample]
    print(f"{len(every)} mutants", flush=True)
    yield from every


def changed_code(path: Path, mutant: Mutant) -> CodeType | None:
    """The code of the changed function; None where the compiler makes the same of it."""
    tree = TREES[id(mutant)]
    plain = compile(tree, str(path), "exec")
    mutant.do()
    try:
        ast.fix_missing_locations(tree)
        code = compile(tree, str(path), "exec")
    finally:
        mutant.undo()
    names = mutant.function.split(".")
    before, after = find_code(plain, names), find_code(code, names)
    return None if before == after else after


def find_code(code: CodeType, names: list[str]) -> CodeType:
    for name in names:
        code = next(const for const in code.co_consts if isinstance(const, CodeType) and const.co_name == name)
    return code


def put_in_place(path: Path, name: str, code: CodeType) -> None:
    """Changes the living function, whoever has imported it already, and forgets what is cached."""
    module = importlib.import_module(".".join(path.relative_to(ROOT / "lint").with_suffix("").parts))
    here: Any = module
    for part in name.split("."):
        here = vars(here)[part] if isinstance(here, (type, ModuleType)) else getattr(here, part)
    function = bare(here)
    function.__code__ = code
    for other in list(sys.modules.values()):
        if getattr(other, "__name__", "").startswith("lintarsia"):
            for value in list(vars(other).values()):
                if hasattr(value, "cache_clear"):
                    value.cache_clear()


def bare(thing: Any) -> FunctionType:
    """The function inside a property, a cached property, a cache, a static or class method."""
    for inner in ("fget", "func", "__wrapped__", "__func__"):
        if not isinstance(thing, FunctionType) or inner == "__wrapped__":
            thing = getattr(thing, inner, thing)
    return thing  # type: ignore[no-any-return]
