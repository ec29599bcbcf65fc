"""Chooses mutants, makes a mutant's code, and puts it in the place of a living function."""

import ast
import gc
import importlib
import random
import sys
from collections import Counter
from collections.abc import Callable
from functools import cache
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

from operators import Mutant, mutants_of

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "lint" / "lintarsia"
TREES: dict[int, ast.Module] = {}  # of each mutant's module, by the mutant's id
Chosen = tuple[Path, Mutant, str]


def module_files(part: str) -> list[Path]:
    path = PACKAGE / part
    return sorted(path.rglob("*.py")) if path.is_dir() else [path]


def every_mutant(parts: list[str]) -> list[Chosen]:
    """(file, mutant, name) of every mutant; the name speaks of function and text, which outlast the line's number."""
    every = []
    for path in dict.fromkeys(file for part in parts for file in module_files(part)):
        text = path.read_text(encoding="utf-8")
        lines = text.splitlines()
        tree = ast.parse(text)
        seen: Counter[str] = Counter()
        for mutant in mutants_of(tree):
            name = f"{path.relative_to(PACKAGE)} {mutant.function}: {mutant.what} in `{lines[mutant.line - 1].strip()}`"
            seen[name] += 1
            every.append((path, mutant, name if seen[name] == 1 else f"{name} ({seen[name]})"))
            TREES[id(mutant)] = tree
    return every


def chosen(parts: list[str], sample: int | None, seed: int) -> list[Chosen]:
    """Every mutant of the parts, or a sample, in an order that makes a fair sample of a run that was broken off."""
    every = every_mutant(parts)
    random.Random(seed).shuffle(every)
    return every[:sample]


@cache
def plain_code(path: Path, tree: ast.Module) -> CodeType:
    return compile(tree, str(path), "exec")


def changed_code(path: Path, mutant: Mutant) -> CodeType | None:
    """The code of the changed function; None where the compiler makes the same of it."""
    tree = TREES[id(mutant)]
    plain = plain_code(path, tree)
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


def caches(*rooms: str) -> list[Callable[[], None]]:
    """What empties each cache of the house, or of some of its folders."""
    names = tuple(f"lintarsia.{room}" for room in rooms) or ("lintarsia",)
    found = {}
    for module in list(sys.modules.values()):
        if getattr(module, "__name__", "").startswith(names):
            for value in vars(module).values():
                if hasattr(value, "cache_clear"):
                    found[id(value)] = value.cache_clear
    return list(found.values())


def put_in_place(path: Path, name: str, code: CodeType) -> None:
    """Changes the living function, whoever has imported it already."""
    module = importlib.import_module(".".join(path.relative_to(ROOT / "lint").with_suffix("").parts))
    here: Any = module
    for part in name.split("."):
        here = vars(here)[part] if isinstance(here, (type, ModuleType)) else getattr(here, part)
    function = decorated(bare(here), name.rpartition(".")[2])
    before, function.__code__ = function.__code__, code
    for was, now in zip(inner(before), inner(code), strict=False):  # those it has made, as a decorator has at import
        gc.unfreeze()
        for living in gc.get_referrers(was):
            if isinstance(living, FunctionType) and len(was.co_freevars) == len(now.co_freevars):
                living.__code__ = now


def decorated(function: FunctionType, name: str) -> FunctionType:
    """The function of that name which another, put in its place by a decorator, holds."""
    if function.__code__.co_name == name:
        return function
    held = [cell.cell_contents for cell in function.__closure__ or ()]
    return next((one for one in held if isinstance(one, FunctionType) and one.__code__.co_name == name), function)


def inner(code: CodeType) -> list[CodeType]:
    """The functions that are defined inside one."""
    return [const for const in code.co_consts if isinstance(const, CodeType) and not const.co_name.startswith("<")]


def bare(thing: Any) -> FunctionType:
    """The function inside a command, a property, a cached property, a cache, a static or class method."""
    for inner in ("callback", "fget", "func", "__wrapped__", "__func__"):
        if not isinstance(thing, FunctionType) or inner == "__wrapped__":
            thing = getattr(thing, inner, thing)
    if not isinstance(thing, FunctionType):  # else the slip would be made nowhere, and live
        raise TypeError(f"there is no function in {thing!r}")
    return thing
