"""Fingerprints stay from release to release: a baseline knows accepted results by them and by nothing else.

fingerprints.txt has a line for each case file with results: its path below tests/cases and the beginning of each of
their fingerprints. A rule that writes another `pattern` than before makes everybody's accepted results of it new ones.
Where that is meant, say so in the changelog.

    python tests/rules/test_fingerprints.py           writes the lines of new cases; those that are there stay
    python tests/rules/test_fingerprints.py --anew    writes them all
"""

import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))  # for a start without pytest

from checking import results_of

from casefiles import CASES, every_case
from folding import each
from lintarsia.rules.shared.cases import Case

KEPT = Path(__file__).parent / "fingerprints.txt"
WITH_RESULTS = [case for case in every_case() if case.expect]
ENOUGH = 12  # hexadecimal digits


def name_of(case: Case) -> str:
    return case.file.relative_to(CASES).as_posix()


def fingerprints(case: Case) -> str:
    """Those of the case's own rule, in the order of the results."""
    return " ".join(found.fingerprint[:ENOUGH] for found in results_of(case) if found.rule == case.rule)


def kept() -> dict[str, str]:
    parts = (line.partition(" ") for line in KEPT.read_text("utf-8").splitlines())
    return {name: found for name, _, found in parts}


@each("case", WITH_RESULTS, named=name_of)
def test_fingerprints_are_those_of_the_last_release(case: Case) -> None:
    name, lines = name_of(case), kept()
    assert name in lines, f"{KEPT.name} has no line for {name}; see the top of this file"
    assert fingerprints(case) == lines[name]


def test_no_line_is_left_of_a_case_that_is_gone() -> None:
    """Then the promise is kept by nothing: a renamed case takes its line along."""
    names = set(map(name_of, WITH_RESULTS))
    assert sorted(set(kept()) - names) == []


def test_lines_that_are_there_stay_as_they_are_unless_all_are_asked_for() -> None:
    case, other = WITH_RESULTS[0], WITH_RESULTS[1]
    known = {name_of(case): "0123456789ab", "a/b/gone.yaml": "ba9876543210"}
    assert lines_of([case, other], known) == [
        f"{name_of(case)} 0123456789ab",
        f"{name_of(other)} {fingerprints(other)}",
    ]
    assert lines_of([case], {}) == [f"{name_of(case)} {fingerprints(case)}"]


def lines_of(cases: Iterable[Case], known: Mapping[str, str]) -> list[str]:
    return [f"{name} {known.get(name) or fingerprints(case)}" for case in cases for name in [name_of(case)]]


def main(arguments: Sequence[str]) -> None:
    lines = lines_of(WITH_RESULTS, {} if "--anew" in arguments else kept())
    KEPT.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
