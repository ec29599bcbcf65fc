"""The release card of a pattern: the pattern and all its charts checked in one run, and what came of it on one page."""

import os
from collections.abc import Iterable
from dataclasses import replace

from lintarsia.engine.gating import gate_results, knit_gate, with_gate
from lintarsia.engine.released import released
from lintarsia.engine.republishing import OTHER, UNCOMMITTED, last_other, release_results
from lintarsia.engine.revision import Revisions
from lintarsia.engine.running import check_paths
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.card import Card, make_card
from lintarsia.pattern.reading import read_pattern
from lintarsia.reading.document import SCHEMA, UNREADABLE
from lintarsia.result import Finding, Level, Report, Result
from lintarsia.settings import Settings, SettingsFinder


class Unpublishable(Exception):  # noqa: N818 - the user is told of it, and it is no error of ours
    """The file holds no pattern of which a card could be made. `problems` are (rule name, finding)."""

    def __init__(self, problems: tuple[tuple[str, Finding], ...]) -> None:
        super().__init__("no pattern")
        self.problems = problems


def release_card(file: str, settings: Settings | None = None, block: Level | None = None) -> Card:
    """Check a pattern and its charts and gather the card. `settings` hold for all of them where given.

    Raises Unpublishable where the file holds no pieces, and Trouble where the run cannot be made.
    """
    file = _from_here(file)
    finder = SettingsFinder(settings)
    own = finder.for_folder(os.path.dirname(os.path.abspath(file)))
    reading = read_pattern(file, max_bytes=own.max_bytes)
    if reading.pattern is None:
        raise Unpublishable(reading.problems)
    work = work_on(reading.pattern, own)
    charts = [chart.path for chart in work.charts.values() if chart.key not in ("outside", "not-there")]
    report: Report = check_paths([file, *charts], settings=settings, block=block)
    holding = [(path, finder.for_folder(os.path.dirname(os.path.abspath(path)))) for path in (file, *charts)]
    ran = {rule.name for path, held in holding for rule in held.armed(os.path.abspath(path)).checks}
    asked = Revisions()
    revisions = {path: asked.of(path) for path in (file, *charts)}
    before = released(file, own, finder, work.pattern.version)
    gate = knit_gate(file, work, finder)
    more = [*release_results(work, before, revisions, own)]
    more += [] if gate is None else gate_results(file, gate, own)
    report = replace(report, results=sorted([*report.results, *more], key=_order))
    looked = ran | {SCHEMA, UNREADABLE} | ({OTHER} if before else set())
    looked |= {UNCOMMITTED} if any(revisions.values()) else set()
    words = {path: found.words for path, found in revisions.items() if found}
    card = make_card(work, report, looked, list(_off(holding)), revisions=words, before=last_other(work, before))
    return card if gate is None else with_gate(card, gate)


def _order(result: Result) -> tuple[object, ...]:
    return result.order


def _from_here(file: str) -> str:
    """The way from the current folder, which is what goes on a card: an absolute path tells of a disk."""
    try:
        return os.path.relpath(file) if os.path.isabs(file) else file
    except ValueError:  # on another drive
        return file


def _off(holding: Iterable[tuple[str, Settings]]) -> Iterable[str]:
    names: set[str] = set()
    for path, held in holding:
        levels = held.armed(os.path.abspath(path)).levels
        names.update(name for name, level in levels.items() if level is Level.OFF)
    return names
