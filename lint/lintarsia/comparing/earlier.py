"""What has become of a chart since each of the states in which somebody may have begun to knit it."""

import os
from collections.abc import Collection, Iterator

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_fingerprint
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange
from lintarsia.engine.git import commit_of, git, names, top_of
from lintarsia.ground.trouble import Trouble
from lintarsia.reading import read_chart

MOST_STATES = 40  # of one chart, from the latest back: whoever began earlier is told by row marks alone


def commits_since(folder: str, revisions: Collection[str]) -> frozenset[str]:
    """The full names of the commits that any of the revisions has not, of those that have led here."""
    top, found = top_of(folder), set[str]()
    for revision in revisions:
        listed = git(top, "rev-list", f"{commit_of(top, revision)}..HEAD")
        found.update(listed.decode("ascii").split())
    return frozenset(found)


def earlier_states(now: Chart, file: str, commits: Collection[str]) -> Iterator[tuple[str, ChartChange]]:
    """Fingerprint and change of each state that differs for the knitter, the latest first: those of `commits` and the
    one before them. A file that has moved is followed; what cannot be read is left out."""
    told = {chart_fingerprint(now)}
    for name, data in _texts(file, commits):
        was = read_chart(name, data).chart
        mark = None if was is None else chart_fingerprint(was)
        if was is not None and mark is not None and mark not in told:
            told.add(mark)
            yield mark, compare_charts(was, now)


def _texts(file: str, commits: Collection[str]) -> Iterator[tuple[str, bytes]]:
    full = os.path.realpath(file)
    top = top_of(os.path.dirname(full))
    own = os.path.relpath(full, top).replace(os.sep, "/")
    asked = ("log", "--follow", f"--max-count={MOST_STATES}", "-z", "--format=tformat:%x01%H", "--name-only", "--", own)
    for entry in git(top, *asked).split(b"\x01")[1:]:
        commit, *named = (part.lstrip("\n") for part in names(entry))
        try:
            data = git(top, "cat-file", "blob", f"{commit}:{named[0]}") if named else b""
        except Trouble:  # taken away in that commit
            data = b""
        if data:
            yield named[0], data
        if commit not in commits:
            return
