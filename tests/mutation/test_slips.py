"""The slips of a mutation run: what is changed, what is left alone, and that the right code comes back."""

import ast
from textwrap import dedent

import pytest
from operators import mutants_of
from swapping import PACKAGE, bare, changed_code, every_mutant, put_in_place

from folding import slow
from lintarsia.telling import counts as telling


def slips(text: str) -> list[str]:
    return [mutant.what for mutant in mutants_of(ast.parse(dedent(text)))]


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ("return a < b", ["returns None", "Lt for LtE"]),
        ("return a + 1", ["returns None", "Add for Sub", "1 for 2"]),
        ("return not a", ["returns None", "without not"]),
        ("return -a", ["returns None", "without USub"]),
        ("return a and b", ["returns None", "And for Or"]),
        ("return min(a, b)", ["returns None", "min for max"]),
        ("return 'row'", ["returns None", "XX before 'row'"]),
        ("return True", ["returns None", "True for False"]),
        ("return [x for x in a if x]", ["returns None", "condition turned round"]),
        ("a = b", ["value lost"]),
        ("a += b", ["value lost", "Add for Sub"]),
        ("a(b)", ["left out"]),
        ("return", []),
        ("return None", []),
        ("assert a == 1, 'one'", []),
        ("import math", []),
    ],
)
def test_the_slips_of_a_statement(body: str, expected: list[str]) -> None:
    assert sorted(slips(f"def f(a, b):\n    {body}\n")) == sorted(expected)


def test_what_is_computed_at_import_is_left_alone() -> None:
    text = '''
        LIMIT = 3

        @cache(1)
        def f(a: int = 5) -> "Row":
            """Says 1 + 1."""
            return a

        class C:
            size: int = 4

            def g(self) -> int:
                return 7
    '''
    assert slips(text) == ["returns None", "returns None", "7 for 8"]


@pytest.mark.parametrize("part", ["telling/counts.py", *slow("planning/rows.py")])
def test_after_every_slip_the_module_is_as_it_was(part: str) -> None:
    tree = ast.parse((PACKAGE / part).read_text("utf-8"))
    before = ast.dump(tree)
    for mutant in mutants_of(tree):
        mutant.do()
        changed = ast.dump(tree)
        mutant.undo()
        assert changed != before, mutant.what
        assert ast.dump(tree) == before, mutant.what


def test_names_of_mutants_are_theirs_alone() -> None:
    names = [name for _, _, name in every_mutant(["planning", "rules"])]
    assert len(set(names)) == len(names)


def test_a_changed_function_takes_the_place_of_the_living_one() -> None:
    path, mutant, _ = next(m for m in every_mutant(["telling/counts.py"]) if "count: Eq for NotEq" in m[2])
    code, right = changed_code(path, mutant), bare(telling.count).__code__
    assert code is not None
    try:
        put_in_place(path, mutant.function, code)
        assert telling.count(1, "stitch") == "1 stitches"
    finally:
        bare(telling.count).__code__ = right
    assert telling.count(1, "stitch") == "1 stitch"


def test_what_a_decorator_has_made_is_changed_too() -> None:
    """`plan` was made by it when its command was imported."""
    from lintarsia.cli import intime, plan

    path = PACKAGE / "cli/intime.py"
    made = plan.command.callback
    assert made is not None
    was, before = made.__code__, intime._within.__code__
    for file, mutant, name in every_mutant(["cli/intime.py"]):
        if name.endswith("_within: Is for IsNot in `if most_seconds is None:`"):
            code = changed_code(file, mutant)
            assert code is not None
            put_in_place(path, "_within", code)
    assert made.__code__ != was
    put_in_place(path, "_within", before)
    assert made.__code__ == was
