"""A fault in the gauge or the key is one result; what would be judged by it is not judged."""

from pathlib import Path

import pytest

from lintarsia.engine import check_chart
from lintarsia.settings import Settings

CHART = """\
lintarsia: 1
title: Mitten
technique: stranded
wearer: infant
gauge: {stitches: 22, rows: 10, over: 10 cm}
yarns: {dk: {name: Shore DK, weight: 0, length: 1 m, mass: 50 g, balls: 0}}
colours:
  A: {name: Shore, shade: "#777777", yarn: dk}
  B: {name: Pebble, shade: "#787878", yarn: dk}
chart: |
  BAAAAAAAAAAAAAAB
  BAAAAAAAAAAAAAAB
suppress: [{rule: gauge/proportion, justification: a knitted sketch}]
"""


def rules(text: str, folder: Path) -> set[str]:
    return {
        result.rule for result in check_chart("mitten.chart.yaml", text.encode(), Settings(root=str(folder))).results
    }


def test_the_chart_as_it_stands_has_much_to_tell(tmp_path: Path) -> None:
    assert {"float/too-long", "gauge/proportion", "colour/look-alike", "yarn/too-little"} <= rules(CHART, tmp_path)


@pytest.mark.parametrize("gauge", ["{stitches: x, rows: 10, over: 10 cm}", "{}", "thick"])
def test_without_a_gauge_nothing_is_judged_by_it(gauge: str, tmp_path: Path) -> None:
    told = rules(CHART.replace("{stitches: 22, rows: 10, over: 10 cm}", gauge), tmp_path)
    assert "file/schema" in told
    assert not {rule for rule in told if rule.startswith(("gauge/", "float/too-long", "yarn/", "care/", "suppress/"))}
    assert "colour/look-alike" in told


def test_without_a_key_nothing_is_judged_by_its_colours(tmp_path: Path) -> None:
    head, _, rest = CHART.partition("colours:")
    told = rules(head + "chart:" + rest.partition("chart:")[2], tmp_path)
    assert "file/schema" in told
    assert not {rule for rule in told if rule.startswith(("colour/", "grid/", "yarn/"))}
    assert "float/too-long" in told
