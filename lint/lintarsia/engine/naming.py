"""The patterns that name a chart: what a change of that chart alone can put wrong."""

import os
from collections.abc import Iterator, Sequence
from contextlib import suppress

from lintarsia.engine.targets import Target
from lintarsia.ground.bounds import repository
from lintarsia.pattern.names import SUFFIX, is_pattern
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.pattern.reading import read_pattern
from lintarsia.settings import SettingsFinder


def patterns_naming(targets: Sequence[Target], finder: SettingsFinder, gone: Sequence[str] = ()) -> list[Target]:
    """The patterns that name one of the charts in `targets` and are no targets yet, in the order of their paths.
    `gone` are the paths of charts that are no more, and may be named still.

    They are looked for in the charts' repository (`ground.bounds`), which is as far as a pattern's paths
    may reach; hidden folders and links to folders are left out, and so is a pattern that its own settings exclude.
    A pattern that is too broken to have pieces names nothing.
    """
    there = {os.path.realpath(target.path) for target in targets}
    named = [*(target.path for target in targets), *gone]
    charts = {os.path.realpath(path): path for path in named if not is_pattern(path)}
    found = {}
    for root in sorted({repository(path) for path in charts.values()}):
        for full in _patterns_below(root):
            if os.path.realpath(full) in there:
                continue
            settings = finder.for_folder(os.path.dirname(full))
            if settings.excludes(full):
                continue
            chart = next(
                (charts[chart] for chart in _charts_of(full, root, settings.max_bytes) if chart in charts), None
            )
            if chart is not None:
                path = full if os.path.isabs(chart) and chart not in gone else os.path.relpath(full)
                found[full] = Target(path, settings, os.path.getsize(full))
    return sorted(found.values(), key=lambda target: target.path)


def _patterns_below(root: str) -> Iterator[str]:
    for here, folders, names in os.walk(root):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if name.endswith(SUFFIX):
                yield os.path.join(here, name)


def _charts_of(file: str, root: str, max_bytes: int) -> Iterator[str]:
    """Where the charts that a pattern names really lie."""
    pattern = read_pattern(file, max_bytes=max_bytes).pattern
    for piece in pattern.pieces.values() if pattern is not None else ():
        for said in piece.charts.values():
            with suppress(Outside):
                yield os.path.realpath(chart_path(file, said, root))
