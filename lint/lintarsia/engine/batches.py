"""Several charts through one step before the next: the processor then has the step's code at hand.

Reading a chart, judging it, drawing it are each more code than a processor keeps near: going through all of it for one
small chart after another took a tenth more time than this.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import TypeVar

from lintarsia.engine.checking import Checked, Examining
from lintarsia.engine.subjects import subject_of
from lintarsia.engine.targets import Target

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


def judge(files: Sequence[Examining]) -> None:
    """As `Examining.judge` for each, rule by rule."""
    for _, alike in groupby(files, lambda file: id(file.armed)):
        group = list(alike)
        for check in group[0].armed.checks:
            for file in group:
                file.apply(check)


def check_charts(targets: Sequence[Target]) -> Iterator[Checked]:
    """As `check_chart` for each of these files, in order. What names other files is read and let go of by itself: its
    own size says nothing of theirs."""
    for batch in batches(targets, lambda target: target.size):
        files = [Examining(subject_of(target.path, None, target.settings)) for target in batch]
        together = [file for file in files if file.subject.kind.whole]
        for file in together:
            file.read()
        judge(together)
        while files:
            file = files.pop(0)
            if not file.subject.kind.whole:
                file.read()
                file.judge()
            yield file.checked()
