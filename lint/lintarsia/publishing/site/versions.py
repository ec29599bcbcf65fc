"""What patterns of a site say of the charts that they name: the version that a chart goes out with."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import replace

from lintarsia.engine.subjects.pattern import PatternSubject
from lintarsia.ground.kinds import kind_of
from lintarsia.publishing.site.task import Task


def pattern_of(task: Task) -> PatternSubject | None:
    """The pattern, read but without its charts; None for a chart."""
    if kind_of(task.target.path).whole:
        return None
    subject = PatternSubject(task.target.path, None, task.target.settings)
    subject.read()
    return subject


def named_charts(task: Task) -> frozenset[str]:
    """The real paths of the charts that a pattern names; none for a chart."""
    subject = pattern_of(task)
    return frozenset() if subject is None else frozenset(map(os.path.realpath, subject.named()))


def with_versions(tasks: Sequence[Task]) -> list[Task]:
    """Each chart with the version of the pattern that names it; with the patterns' titles, where several do."""
    told: dict[str, list[tuple[str, str]]] = {}
    for task in tasks:
        subject = pattern_of(task)
        if subject is not None and subject.pattern is not None and subject.pattern.version:
            for chart in dict.fromkeys(map(os.path.realpath, subject.named())):
                told.setdefault(chart, []).append((subject.pattern.version, subject.pattern.title))
    return [replace(task, version=", ".join(_words(told.get(_real(task), [])))) for task in tasks]


def _words(found: Sequence[tuple[str, str]]) -> Iterator[str]:
    for version, title in found:
        yield version if len(found) == 1 else f"{version} of {title}"


def _real(task: Task) -> str:
    return os.path.realpath(task.target.path)
