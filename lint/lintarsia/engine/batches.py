"""Several charts through one step before the next: the processor then has the step's code at hand.

Reading a chart, judging it, drawing it are each more code than a processor keeps near: going through all of it for one
small chart after another took a tenth more time than this.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import TypeVar

from lintarsia.engine.checking import Checked, Examining, check_chart, checked
from lintarsia.engine.targets import Target
from lintarsia.pattern.names import is_pattern
from lintarsia.result import Result

T = TypeVar("T")

# Few enough that no memory is spent on it, however large the charts are.
MOST, MOST_BYTES = 16, 50_000


def batches(items: Sequence[T], size: Callable[[T], int], most: int = MOST) -> Iterator[Sequence[T]]:
    """`items` in order, at most `most` at once, and none beside one whose files (of `size` bytes) are large."""
    start, room = 0, MOST_BYTES
    for end, item in enumerate(items):
        room -= size(item)
        if start < end and (end - start == most or room < 0):
            yield items[start:end]
            start, room = end, MOST_BYTES - size(item)
    if items:
        yield items[start:]


def judge(charts: Sequence[Examining]) -> list[tuple[Result, ...]]:
    """As `Examining.judge` for each, rule by rule."""
    for _, alike in groupby(charts, lambda chart: id(chart.armed)):
        group = list(alike)
        for check in group[0].armed.checks:
            for chart in group:
                chart.apply(check)
    return [chart.results() for chart in charts]


def check_charts(targets: Sequence[Target]) -> Iterator[Checked]:
    """As `check_chart` for each of these files, in order."""
    for batch in batches(targets, lambda target: target.size):
        charts = [Examining(t.path, None, t.settings) for t in batch if not is_pattern(t.path)]
        for chart in charts:
            chart.read()
        answers = map(checked, judge(charts), [chart.work for chart in charts])
        for target in batch:
            yield check_chart(target.path, None, target.settings) if is_pattern(target.path) else next(answers)
