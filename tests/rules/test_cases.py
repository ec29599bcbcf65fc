"""Every case file: the rule, run through the engine, must say exactly what the case expects and nothing else."""

import pytest
from checking import results_of
from expecting import as_expected, expectation_text

from casefiles import every_case
from lintarsia.rules import catalogue
from lintarsia.rules.shared.cases import Case

GROUPS = sorted({case.rule.partition("/")[0] for case in every_case()})


@pytest.mark.parametrize("group", GROUPS)
def test_every_case_is_told_as_it_says(group: str) -> None:
    wrong = [fault for case in every_case() if case.rule.startswith(f"{group}/") for fault in faults(case)]
    assert wrong == [], "\n\n".join(wrong)


def faults(case: Case) -> list[str]:
    """What is not as the case says, each with the case's file."""
    results, found = results_of(case), []
    if others := [f"{result.rule}: {result.message}" for result in results if result.rule != case.rule]:
        found.append(f"{case.file} has faults besides the rule's own: {others}")
    told = [as_expected(result, catalogue.load(case.rule).info.remedy) for result in results]
    if told != list(case.expect):
        found.append(f"{case.file}: found\n{expectation_text(told)}")
    marks = [result.fingerprint for result in results]
    if not all(marks) or len(set(marks)) != len(marks):
        found.append(f"{case.file}: fingerprints are missing or alike: {marks}")
    return found
