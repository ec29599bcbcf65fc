"""Panels of tubes: a mitten's back is no whole tube, and its first and last stitch are no neighbours."""

import pytest
from reading_charts import PLAIN, cut, read

from lintarsia.chart import Chart


def chart(extra: str) -> Chart:
    reading = read(PLAIN + extra + "\n")
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


@pytest.mark.parametrize(
    ("extra", "tube", "panel"),
    [
        ("worked: round", True, False),
        ("worked: round\nof: 14 stitches", False, True),
        ("worked: turned\nof: 14 sts", False, True),
        ("worked: round\nof: 6 stitches", True, False),  # the whole of it after all
        ("worked: flat", False, False),
    ],
)
def test_a_panel_has_edges(extra: str, tube: bool, panel: bool) -> None:
    c = chart(extra)
    assert (c.tube, c.panel) == (tube, panel)


@pytest.mark.parametrize(
    ("extra", "message"),
    [
        ("worked: round\nof: 5 stitches", "the chart is 6 stitches wide, a part of 5 stitches; expected more"),
        ("of: 14 stitches", "the chart is a part of 14 stitches and is worked flat; expected round or turned"),
        ("worked: round\nof: 14", "of: found '14'; expected a count such as 56 stitches"),
    ],
)
def test_what_does_not_agree(extra: str, message: str) -> None:
    text = PLAIN + extra + "\n"
    reading = read(text)
    assert reading.chart is not None
    ((rule, finding),) = reading.problems
    assert (rule, finding.message) == ("file/schema", message)
    assert cut(text, finding.region) == extra.rpartition(": ")[2]
