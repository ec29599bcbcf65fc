"""The fixes of the rules on the chart alone: each, applied by itself, takes its result away and brings no fault."""

import pytest
from edits_applied import apply

from casefiles import every_case
from lintarsia.engine import check_chart
from lintarsia.reading import read_chart
from lintarsia.result import Fix, Result
from lintarsia.rules import catalogue
from lintarsia.rules.rulebook import Rulebook
from lintarsia.rules.shared.cases import Case
from lintarsia.settings import Settings

RULES = ("area/single-stitch", "colour/no-yarn", "grid/unknown-colour")
CASES = [c for c in every_case() if c.rule in RULES and not c.clean and not c.settings]
ENGINE_OWN = catalogue.BY_THE_ENGINE


def results(case: Case, text: str) -> tuple[Result, ...]:
    book = Rulebook(tuple(sorted([case.rule, *ENGINE_OWN])), catalogue.load)
    return check_chart("case.chart.yaml", text.encode(), Settings(root="/", rulebook=book)).results


FIXES = [(case, result.message, fix) for case in CASES for result in results(case, case.chart) for fix in result.fixes]


def test_every_one_of_these_rules_offers_a_fix() -> None:
    assert {case.rule for case, _, _ in FIXES} == set(RULES)


@pytest.mark.parametrize(("case", "message", "fix"), FIXES, ids=[f"{c.rule}: {f.description}" for c, _, f in FIXES])
def test_the_fix_mends_what_it_is_for(case: Case, message: str, fix: Fix) -> None:
    before = [result.message for result in results(case, case.chart)]
    after = [result.message for result in results(case, apply(case.chart, fix.edits))]
    assert message not in after
    assert set(after) <= set(before)
    assert fix.safe is False  # each changes the picture or what is bought


def test_a_lone_stitch_is_still_there_as_a_duplicate_stitch() -> None:
    case, _, fix = next(found for found in FIXES if found[0].file.stem == "one-stitch-alone")
    chart = read_chart("case.chart.yaml", apply(case.chart, fix.edits).encode()).chart
    assert chart is not None
    assert chart.grid.rows == ("BBBBB", "BBBBB", "BBBBB")
    assert [(d.colour, d.row, d.stitches) for d in chart.duplicate] == [("W", 2, (3, 3))]
