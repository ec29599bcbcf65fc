"""What a log says was knitted, read."""

import os
from collections.abc import Iterable, Sequence

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.ground.leftout import is_there
from lintarsia.knits.model import KnitLog
from lintarsia.knits.work import KnitWork, as_pattern
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.pattern.reading import read_pattern
from lintarsia.reading import read_chart
from lintarsia.reading.source import Read
from lintarsia.result import Finding
from lintarsia.settings import Settings


def knit_work(log: KnitLog, settings: Settings, files: Read | None = None) -> KnitWork:
    """The log with what was knitted read. `files` as in `read_document`."""
    try:
        path = chart_path(log.path, log.names, repository(log.path))
    except Outside as fault:
        return KnitWork(log, None, "outside", str(fault))
    if log.of is Kind.PATTERN:
        reading = read_pattern(path, max_bytes=settings.max_bytes, read=files)
        if reading.pattern is not None:
            return KnitWork(log, work_on(reading.pattern, settings, files))
        return _missing(log, path, reading.problems)
    chart = read_chart(path, max_bytes=settings.max_bytes, max_stitches=settings.max_stitches, read=files)
    if chart.chart is not None:
        return KnitWork(log, as_pattern(chart.chart, log.names, settings.reckoning))
    return _missing(log, path, chart.problems)


def _missing(log: KnitLog, path: str, problems: Sequence[tuple[str, Finding]]) -> KnitWork:
    if problems and not is_there(path):
        return KnitWork(log, None, "not-there", f"there is no {log.of} {log.names!r}", _near(log, path))
    why = problems[0][1].message if problems else "it has no pieces"
    return KnitWork(log, None, "unreadable", f"the {log.of} {log.names!r} cannot be read: {why}")


def _near(log: KnitLog, path: str) -> str:
    """A guess at the file that is meant, among those of its kind in the folder that the path leads to."""
    from lintarsia.telling.guessing import did_you_mean

    try:
        names = [name for name in os.listdir(os.path.dirname(path) or os.curdir) if name.endswith(log.of.suffix)]
    except OSError:
        return ""
    meant = did_you_mean(os.path.basename(path).removesuffix(".yaml").removesuffix(f".{log.of}"), _stems(names, log))
    return meant[:-2] + f"{log.of.suffix}'?" if meant else ""


def _stems(names: Iterable[str], log: KnitLog) -> list[str]:
    return sorted(name.removesuffix(log.of.suffix) for name in names)
