"""Every case file: the rule, run through the engine, must say exactly what the case expects and nothing else."""

from pathlib import Path

import pytest

from lintarsia.engine import check_chart
from lintarsia.rulebook import ENGINE_GROUPS, Rulebook
from lintarsia.rules import catalogue
from lintarsia.rules.cases import Case, as_expected, expectation_text, read_cases
from lintarsia.settings import Settings, read_settings

CASES = list(read_cases(Path(__file__).parents[1] / "cases"))
ENGINE_OWN = [name for name in catalogue.NAMES if name.partition("/")[0] in ENGINE_GROUPS]


def settings_of(case: Case, folder: Path) -> Settings:
    """The case's settings, with no rule but its own and the engine's; for suppressions, with all rules."""
    names = catalogue.NAMES if case.rule.startswith("suppress/") else {case.rule, *ENGINE_OWN}
    book = Rulebook(tuple(sorted(names)), catalogue.load)
    if not case.settings:
        return Settings(root=str(folder), rulebook=book)
    file = folder / "lintarsia.yaml"
    file.write_text(case.settings, encoding="utf-8")
    return read_settings(str(file), rulebook=book)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.rule}: {case.name}")
def test_case(case: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name, text in case.beside.items():
        Path(name).write_text(text, encoding="utf-8")
    name = "case.pattern.yaml" if case.pattern else "case.chart.yaml"
    checked = check_chart(name, case.chart.encode(), settings_of(case, tmp_path))
    results = sorted(checked.results, key=lambda result: result.order)
    others = [f"{result.rule}: {result.message}" for result in results if result.rule != case.rule]
    assert others == [], f"{case.file} has faults besides the rule's own"
    told = [as_expected(result, catalogue.load(case.rule).info.remedy) for result in results]
    assert told == list(case.expect), f"{case.file}: found\n{expectation_text(told)}"
    assert all(result.fingerprint for result in results)
    assert len({result.fingerprint for result in results}) == len(results)
