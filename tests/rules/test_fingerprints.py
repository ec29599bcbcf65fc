"""Fingerprints stay from release to release: a baseline knows accepted results by them and by nothing else.

fingerprints.txt has a line for each case file with results: its path below tests/cases and the beginning of each of
their fingerprints. A rule that writes another `pattern` than before makes everybody's accepted results of it new ones.
Where that is meant, say so in the changelog. To write the lines of new cases, or all anew:

    python tests/rules/test_fingerprints.py
"""

import os
import tempfile
from pathlib import Path

import pytest
from checking import results_of

from lintarsia.rules.shared.cases import Case, read_cases

CASES = Path(__file__).parents[1] / "cases"
KEPT = Path(__file__).parent / "fingerprints.txt"
WITH_RESULTS = [case for case in read_cases(CASES) if case.expect]
ENOUGH = 12  # hexadecimal digits


def fingerprints(case: Case, folder: Path) -> str:
    """Those of the case's own rule, in the order of the results."""
    return " ".join(found.fingerprint[:ENOUGH] for found in results_of(case, folder) if found.rule == case.rule)


def kept() -> dict[str, str]:
    parts = (line.partition(" ") for line in KEPT.read_text("utf-8").splitlines())
    return {name: found for name, _, found in parts}


@pytest.mark.parametrize("case", WITH_RESULTS, ids=lambda case: case.file.relative_to(CASES).as_posix())
def test_fingerprints_are_those_of_the_last_release(
    case: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    name = case.file.relative_to(CASES).as_posix()
    assert name in kept(), f"{KEPT.name} has no line for {name}; see the top of this file"
    assert fingerprints(case, tmp_path) == kept()[name]


def test_no_line_is_left_of_a_case_that_is_gone() -> None:
    """Then the promise is kept by nothing: a renamed case takes its line along."""
    names = {case.file.relative_to(CASES).as_posix() for case in WITH_RESULTS}
    assert sorted(set(kept()) - names) == []


def main() -> None:
    lines = []
    home = Path.cwd()
    for case in WITH_RESULTS:
        with tempfile.TemporaryDirectory() as folder:
            os.chdir(folder)
            lines.append(f"{case.file.relative_to(CASES).as_posix()} {fingerprints(case, Path(folder))}")
            os.chdir(home)
    KEPT.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")


if __name__ == "__main__":
    main()
