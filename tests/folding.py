"""Many small cases in one test: what `pytest.mark.parametrize` does, where a case takes less than a test.

A test of its own costs every run some milliseconds, in each process that collects it; with thousands of cases that is
more than the cases themselves. Nothing is lost of what failed: every case is tried, and those that fail are named.
"""

import functools
import inspect
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import islice
from typing import TypeVar

import pytest
from _pytest.mark import ParameterSet

QUICK = False  # whether this is the quick run; tests/conftest.py sets it
Cases = Iterable[object] | Callable[[], Iterable[object]]
SHOWN = 20
Case = TypeVar("Case")


def each(
    names: str, cases: Cases, named: Callable[..., str] = repr, *, quickly: int = 1
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """The decorated test is run with each case: `@each("seed", range(300))`, `@each("was, now", [(1, 2), (3, 4)])`.

    `cases` may be a function that makes them, once the test is run. `named` says what a case is called where it fails.
    Fixtures are made once for all cases: a case has to leave a folder as it found it. Of very many that are alike the
    quick run tries every `quickly`th alone.
    """
    parameters = [name.strip() for name in names.split(",")]

    def fold(test: Callable[..., None]) -> Callable[..., None]:
        @functools.wraps(test)
        def run(**fixtures: object) -> None:
            tried, failed = 0, {}
            all_of_them = cases() if callable(cases) else cases
            for tried, case in enumerate(islice(all_of_them, None, None, quickly if QUICK else 1), 1):
                values = case if len(parameters) > 1 else (case,)
                try:
                    test(**fixtures, **dict(zip(parameters, values, strict=True)))  # type: ignore[call-overload]
                except (Exception, pytest.fail.Exception) as error:
                    failed[f"{tried}: {named(case)}"] = error
            assert tried, "there is no case to try"
            _tell(failed, tried)

        signature = inspect.signature(test)
        asked = [parameter for name, parameter in signature.parameters.items() if name not in parameters]
        run.__signature__ = signature.replace(parameters=asked)  # type: ignore[attr-defined]
        return run

    return fold


def slow(*cases: object) -> list[ParameterSet]:
    """Cases of `pytest.mark.parametrize` that are for the whole suite alone; one of several values is a tuple."""
    return [pytest.param(*(case if isinstance(case, tuple) else (case,)), marks=pytest.mark.slow) for case in cases]


def some(cases: Sequence[Case], quickly: int) -> Sequence[Case]:
    """All cases; in the quick run every `quickly`th of them."""
    return cases[::quickly] if QUICK else cases


def _tell(failed: Mapping[str, BaseException], tried: int) -> None:
    """The first failure with all its lines, and every case that failed by its name."""
    if not failed:
        return
    lines = [f"{name}\n    {_first_line(error)}" for name, error in failed.items()]
    more = [f"and {len(lines) - SHOWN} more"] if len(lines) > SHOWN else []
    told = "\n".join([f"{len(failed)} of {tried} cases failed", *lines[:SHOWN], *more])
    raise AssertionError(told) from next(iter(failed.values()))


def _first_line(error: BaseException) -> str:
    text = str(error).strip()
    return f"{type(error).__name__}: {text.splitlines()[0] if text else 'nothing said'}"
