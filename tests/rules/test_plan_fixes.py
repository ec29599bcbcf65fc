"""The fixes of the rules on the plan, applied to their own cases: nothing is left to say, and nothing else is new."""

import pytest
from edits_applied import apply

from casefiles import every_case
from lintarsia.engine import check_chart
from lintarsia.rules import catalogue
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Settings

RULES = ("supply/too-few", "supply/too-short", "yarn/too-little")
CASES = [c for c in every_case() if c.rule in RULES and not c.clean and c.kind.whole]
ENGINE_OWN = catalogue.BY_THE_ENGINE


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.rule}: {case.name}")
def test_the_fix_mends_what_it_is_for(case, tmp_path):
    settings = Settings(root=str(tmp_path), rulebook=Rulebook(tuple(sorted([case.rule, *ENGINE_OWN])), catalogue.load))
    results = check_chart("case.chart.yaml", case.chart.encode(), settings).results
    edits = tuple(edit for result in results for fix in result.fixes for edit in fix.edits)
    assert len(edits) == len(results) > 0
    mended = apply(case.chart, edits)
    assert check_chart("case.chart.yaml", mended.encode(), settings).results == ()
