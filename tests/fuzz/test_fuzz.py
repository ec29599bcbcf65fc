"""Whatever a file holds: the whole check, the fixes and the plan come to an end, break off nowhere, and harm nothing.

Two thousand inputs, the same every time; `LINTARSIA_FUZZ=50000 pytest tests/fuzz` tries as many new ones as it says.
"""

import os
import re
from pathlib import Path

import pytest
from fuzz_files import CHARTS, PATTERNS, changed, put_together
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from lintarsia.engine import check_chart
from lintarsia.ground.trouble import Trouble
from lintarsia.mending import Mended, mend
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.answer import Question, answer
from lintarsia.plansheets.stating import needed, state_supplies
from lintarsia.reading import read_chart
from lintarsia.reading.applying import parted
from lintarsia.reporting import REPORTERS
from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Level, Report
from lintarsia.rules import catalogue
from lintarsia.settings import Settings
from lintarsia.settings.model import RuleSetting
from rendering import rendered

pytestmark = pytest.mark.slow

TRIES = int(os.environ.get("LINTARSIA_FUZZ", "0"))
HOUSE = Settings(root="/")
EVERY_RULE = Settings(root="/", rules={name: RuleSetting(Level.NOTE) for name in catalogue.NAMES}, block=Level.NOTE)
OWN_FAULT = "engine/rule-failed"


# Found at night: a symmetry that asks after a stitch beyond the end of a row whose stitches are set apart.
SHORT_AND_APART = b"lintarsia: 1\ntitle: Any\nsymmetry: [left-right]\nchart: |\n  WWBB\n  B. B\n  BBB\n  BBB\n"


def tries(percent: int) -> settings:
    """A share of as many as are asked for, else of two thousand."""
    return settings(
        max_examples=(TRIES or 2000) * percent // 100,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
        phases=[Phase.explicit, Phase.generate, Phase.shrink],
        derandomize=not TRIES,  # the same in every change's run; new ones at night
    )


def whole_check(name: str, data: bytes, house: Settings, *, risky: bool) -> Mended:
    """Check, report, mend, mend again; what holds of every file is asserted on the way."""
    before = check_chart(name, data, house).results
    assert [result.message for result in before if result.rule == OWN_FAULT] == []
    mended = mend(name, data, house, risky=risky)
    assert [result.message for result in mended.results if result.rule == OWN_FAULT] == []
    if not mended.fixed:
        assert mended.data == data
    else:
        assert check_chart(name, mended.data, house).results == mended.results
        again = mend(name, mended.data, house, risky=risky)
        assert (again.data, again.fixed) == (mended.data, ())
        assert not {r.rule for r in mended.results} & {"file/unreadable"}
        standing = [[r for r in results if not r.suppressed] for results in (before, mended.results)]
        blocking = [sum(r.level.reaches(house.block) for r in results) for results in standing]
        assert blocking[1] <= blocking[0]
        assert kept_line_ends(data, mended.data)
    if len(data) % 8 == 0 or mended.fixed:  # reports and sheets take longer than all the rest
        told(mended)
    return mended


def told(mended: Mended) -> None:
    report = Report(1, mended.results, rules={r.rule: catalogue.load(r.rule).info for r in mended.results})
    for reporter in REPORTERS:
        assert rendered(report, PLAIN, reporter).encode("utf-8") or reporter == "github"  # which lists results alone


def kept_line_ends(old: bytes, new: bytes) -> bool:
    """The mark at the start, the end of the last line, and no kind of line's end that was not there before."""
    (mark, before), (kept, after) = parted(old), parted(new)
    kinds = [set(re.findall("\r\n|\n|\r", text)) for text in (before, after)]
    ends = [text[-1:] in ("\r", "\n") for text in (before, after)]
    return mark == kept and ends[0] == ends[1] and kinds[1] <= (kinds[0] or {"\n"})


def plan_of(data: bytes) -> None:
    chart = read_chart("x.chart.yaml", data).chart
    if chart is None or chart.assumed:
        return
    plan = make_plan(chart)
    for form in ("text", "json", "csv", "csv-rows") if len(data) % 8 == 0 else ():
        assert answer(chart, Question(form), PLAIN)
    wanted = needed(chart, plan)
    if not set(wanted) <= set(chart.colours):
        return  # `plan --write` refuses a chart with symbols that the key does not have
    try:
        stated = state_supplies(parted(data)[1], wanted)
        assert state_supplies(stated, wanted) == stated
    except Trouble:
        return


@example(SHORT_AND_APART, False, False)
@tries(40)
@given(changed(CHARTS), st.booleans(), st.booleans())
def test_real_charts_with_pieces_changed(data: bytes, strict: bool, risky: bool) -> None:
    mended = whole_check("x.chart.yaml", data, EVERY_RULE if strict else HOUSE, risky=risky)
    plan_of(mended.data)


@tries(40)
@given(put_together(), st.booleans(), st.booleans())
def test_charts_put_together_from_right_and_wrong_parts(data: bytes, strict: bool, risky: bool) -> None:
    mended = whole_check("x.chart.yaml", data, EVERY_RULE if strict else HOUSE, risky=risky)
    plan_of(mended.data)


@tries(10)
@given(changed(PATTERNS), st.booleans())
def test_real_patterns_with_pieces_changed(data: bytes, risky: bool) -> None:
    whole_check(str(Path("nowhere") / "x.pattern.yaml"), data, EVERY_RULE, risky=risky)


@tries(10)
@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    whole_check("x.chart.yaml", data, HOUSE, risky=True)
