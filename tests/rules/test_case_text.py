"""Results as a case file states them, word for word, and a case file read whole."""

from pathlib import Path

import pytest
from expecting import as_expected, expectation_text

from lintarsia.result import Edit, Fix, Kind, Level, Region, Result
from lintarsia.rules.shared.cases import read_case

PLACE = Region(9, 3, 9, 5)
FIX = Fix("write B", (Edit(PLACE, "B\n"),), safe=False)
BARE = Result("grid/x", "a-key", Level.NOTE, "row 1 has 'it'", "a.chart.yaml", PLACE, remedy="the rule's own")
WHOLE = Result(
    "grid/x",
    "a-key",
    Level.ERROR,
    'row 2 has "it"',
    "a.chart.yaml",
    PLACE,
    row=2,
    stitches=(1, 3),
    remedy="another",
    fixes=(FIX,),
    suppressed=True,
)


def test_what_a_result_does_not_have_is_left_out() -> None:
    assert expectation_text([as_expected(BARE, "the rule's own")]) == (
        "expect:\n"
        "  - key: a-key\n"
        "    level: note\n"
        "    message: \"row 1 has 'it'\"\n"
        "    region: {line: 9, column: 3, end_line: 9, end_column: 5}\n"
    )
    assert expectation_text([]) == "expect: []\n"


def test_a_result_with_everything() -> None:
    assert expectation_text([as_expected(WHOLE, "the rule's own"), as_expected(BARE, "the rule's own")]) == (
        "expect:\n"
        "  - key: a-key\n"
        "    level: error\n"
        '    message: "row 2 has \\"it\\""\n'
        "    row: 2\n"
        "    stitches: [1, 3]\n"
        "    region: {line: 9, column: 3, end_line: 9, end_column: 5}\n"
        "    remedy: another\n"
        '    fixes: [{description: "write B", safe: false, edits: '
        '[{region: {line: 9, column: 3, end_line: 9, end_column: 5}, text: "B\\n"}]}]\n'
        "    suppressed: true\n"
        "  - key: a-key\n"
        "    level: note\n"
        "    message: \"row 1 has 'it'\"\n"
        "    region: {line: 9, column: 3, end_line: 9, end_column: 5}\n"
    )


@pytest.mark.parametrize(
    ("beside", "charts"), [("", {}), ("charts:\n", {}), ("charts: {a.yaml: x}\n", {"a.yaml": "x"})]
)
def test_a_case_of_a_pattern_with_the_charts_in_its_folder(tmp_path: Path, beside: str, charts: dict[str, str]) -> None:
    file = tmp_path / "pieces" / "pair" / "two-lefts.yaml"
    file.parent.mkdir(parents=True)
    file.write_text(f"name: two lefts\npattern: p\n{beside}expect: [{{key: x}}]\n", encoding="utf-8")
    case = read_case(file)
    assert (case.rule, case.name, case.chart, case.kind, case.settings) == (
        "pieces/pair",
        "two lefts",
        "p",
        Kind.PATTERN,
        "",
    )
    assert case.beside == charts
    assert case.expect == ({"key": "x"},)
    assert not case.clean


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[]", "a case is a mapping with name, chart and expect"),
        ("{chart: y}", "the case has no expect, name"),
        (
            "{name: x, pattern: y, expect: [], rows: 3, a: b}",
            "a case has no a, rows; it has chart, charts, expect, knit, name, pattern, settings",
        ),
    ],
)
def test_what_is_wrong_with_a_case_is_said_after_its_path(tmp_path: Path, text: str, said: str) -> None:
    file = tmp_path / "some-case.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match="case") as caught:
        read_case(file)
    assert str(caught.value) == f"{file}: {said}"
