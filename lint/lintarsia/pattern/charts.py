"""The charts that a pattern names, read; and those in its folder that no pattern names."""

import os
from collections.abc import Iterator

from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.ground.leftout import is_left_out
from lintarsia.pattern.model import Pattern
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import ChartFile
from lintarsia.reading import read_chart
from lintarsia.reading.reader import MOST_CELLS
from lintarsia.reading.source import Read
from lintarsia.result import Level
from lintarsia.telling.guessing import nearest

MOST_FILES = 5000  # looked at beside a pattern; a folder with more is no pattern's own


def read_charts(
    pattern: Pattern, max_bytes: int, max_stitches: int = MOST_CELLS, read: Read | None = None
) -> dict[str, ChartFile]:
    """Every chart that the pattern names, by the path as written, in the file's order. `read` as in `read_document`."""
    root = repository(pattern.path)
    said = dict.fromkeys(path for piece in pattern.pieces.values() for path in piece.charts.values())
    return {path: _read(pattern.path, path, root, max_bytes, max_stitches, read) for path in said}


def _read(file: str, said: str, root: str, max_bytes: int, max_stitches: int, read: Read | None) -> ChartFile:
    try:
        path = chart_path(file, said, root)
    except Outside as fault:
        return ChartFile(said, said, None, "outside", str(fault))
    reading = read_chart(path, max_bytes=max_bytes, max_stitches=max_stitches, read=read)
    if reading.text is None and is_left_out(path):
        hint = "; it lies here, and is no part of the commit"
        return ChartFile(said, path, None, "not-there", f"there is no chart {said!r}", hint)
    if reading.text is None and not os.path.lexists(path):  # an editor may have a chart that was never saved
        return ChartFile(said, path, None, "not-there", f"there is no chart {said!r}", _near(said, path))
    faults = [finding for _, finding in reading.problems if finding.level in (None, Level.ERROR)]
    if reading.chart is None:
        why = faults[0].message if faults else "it has no rows"
        return ChartFile(said, path, None, "unreadable", f"the chart {said!r} cannot be read: {why}")
    return ChartFile(said, path, reading.chart)


def _near(said: str, path: str) -> str:
    """A guess at the chart that is meant, among those of the folder that the path leads to.

    Names are compared without the suffix, which would make all of them alike.
    """
    folder, name = os.path.split(said)
    try:
        names = [n for n in os.listdir(os.path.dirname(path) or os.curdir) if n.endswith(Kind.CHART.suffix)]
    except OSError:
        return ""
    stems = sorted(n.removesuffix(Kind.CHART.suffix) for n in names[:MOST_FILES])
    meant = nearest(name.removesuffix(".yaml").removesuffix(".chart"), stems)
    return f"; did you mean {os.path.join(folder, meant + Kind.CHART.suffix)!r}?" if meant is not None else ""


def charts_beside(pattern: Pattern, max_bytes: int, read: Read | None = None) -> tuple[str, ...]:
    """Charts in the pattern's folder and below, relative to it, that neither it nor a pattern beside it names.
    `read` as in `read_document`.
    """
    folder = os.path.dirname(os.path.abspath(pattern.path))
    files = sorted(_files(folder))
    patterns = [pattern]
    for name in files:
        path = os.path.join(folder, name)
        if name.endswith(Kind.PATTERN.suffix) and path != os.path.abspath(pattern.path):
            other = read_pattern(path, max_bytes=max_bytes, read=read).pattern
            if other is not None:
                patterns.append(other)
    named = {
        os.path.normpath(os.path.join(os.path.dirname(os.path.abspath(p.path)), said))
        for p in patterns
        for piece in p.pieces.values()
        for said in piece.charts.values()
    }
    return tuple(n for n in files if n.endswith(Kind.CHART.suffix) and os.path.join(folder, n) not in named)


def _files(folder: str) -> Iterator[str]:
    seen = 0
    for here, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in names:
            seen += 1
            if seen > MOST_FILES:
                return
            if name.endswith((Kind.CHART.suffix, Kind.PATTERN.suffix)):
                yield os.path.relpath(os.path.join(here, name), folder).replace(os.sep, "/")
