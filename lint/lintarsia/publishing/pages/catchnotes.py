"""Which yarns are caught on their way in a row, where the chart says that floats and carries are."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.languages import phrase


def catch_words(chart: Chart, plan: Plan, runs: Sequence[int]) -> str:
    """`catch A1 and C2 on the way`: the yarns that come to these runs by a float or a carry that is caught."""
    most, cover = chart.caught_stitches, plan.threads.cover
    if most is None or not runs:
        return ""
    previous = [(run, int(cover.previous[run])) for run in runs]
    far = [run for run, before in previous if before >= 0 and cover.carried[before] > most and not cover.idle[before]]
    names = dict.fromkeys(plan.supplies[int(cover.supply[run])].id for run in far)
    return phrase("catch {yarns} on the way", yarns=one_and_all(list(names))) if names else ""
