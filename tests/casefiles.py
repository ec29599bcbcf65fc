"""The case files below `tests/cases`, read once in a process: many tests go through all of them."""

from functools import cache
from pathlib import Path

from lintarsia.rules.shared.cases import Case, read_cases

CASES = Path(__file__).parent / "cases"


@cache
def every_case() -> tuple[Case, ...]:
    """In the order of their paths."""
    return tuple(read_cases(CASES))
