"""Case files as they are read, and expectations as they are written out for pasting."""

from pathlib import Path

import pytest
import yaml
from expecting import expectation_text

from lintarsia.rules import catalogue
from lintarsia.rules.shared.cases import read_case, read_cases

CASES = Path(__file__).parents[1] / "cases"


def test_what_is_written_out_reads_back() -> None:
    """Every expectation of every case: quotes, dashes, lists, fixes with line breaks."""
    every = [list(case.expect) for case in read_cases(CASES)]
    assert any(every)
    for expected in every:
        assert yaml.load(expectation_text([dict(told) for told in expected]), yaml.BaseLoader) == {"expect": expected}
    assert expectation_text([]) == "expect: []\n"
    odd = [{"key": "a-b", "message": 'a "b" \\ c\nd', "empty": "", "row": "3"}]
    assert expectation_text(odd).splitlines() == [
        "expect:", "  - key: a-b", r'    message: "a \"b\" \\ c\nd"', '    empty: ""', "    row: 3",
    ]  # fmt: skip


def test_cases_come_in_the_order_of_their_paths() -> None:
    files = [case.file for case in read_cases(CASES)]
    assert files == sorted(CASES.glob("*/*/*.yaml"))
    assert {case.rule for case in read_cases(CASES)} <= set(catalogue.NAMES)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[]", "a case is a mapping with name, chart and expect"),
        ("{name: x, chart: y}", "the case has no expect"),
        ("{chart: y}", "the case has no expect, name"),
        ("{name: x, expect: []}", "the case has no chart"),
        ("{name: x, pattern: y, expect: [], rows: 3}", "a case has no rows; it has chart, charts, expect, knit, name"),
    ],
)
def test_a_case_that_cannot_be_used(tmp_path: Path, text: str, said: str) -> None:
    file = tmp_path / "group" / "rule" / "some-case.yaml"
    file.parent.mkdir(parents=True)
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=said):
        read_case(file)


def test_rules_go_by_their_names_in_the_catalogue() -> None:
    assert [catalogue.load(name).info.name for name in catalogue.NAMES] == sorted(catalogue.NAMES)
