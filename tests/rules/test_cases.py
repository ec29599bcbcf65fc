"""Every case file: the rule, run through the engine, must say exactly what the case expects and nothing else."""

from pathlib import Path

import pytest
from checking import results_of
from expecting import as_expected, expectation_text

from lintarsia.rules import catalogue
from lintarsia.rules.shared.cases import Case, read_cases

CASES = list(read_cases(Path(__file__).parents[1] / "cases"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.rule}: {case.name}")
def test_case(case: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    results = results_of(case, tmp_path)
    others = [f"{result.rule}: {result.message}" for result in results if result.rule != case.rule]
    assert others == [], f"{case.file} has faults besides the rule's own"
    told = [as_expected(result, catalogue.load(case.rule).info.remedy) for result in results]
    assert told == list(case.expect), f"{case.file}: found\n{expectation_text(told)}"
    assert all(result.fingerprint for result in results)
    assert len({result.fingerprint for result in results}) == len(results)
