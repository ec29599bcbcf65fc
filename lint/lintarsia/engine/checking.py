"""One chart against the rules that hold for it."""

import os
import sys
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from typing import NamedTuple

from lintarsia.chart import Chart, Worked
from lintarsia.engine.suppressing import covering, idle_suppressions
from lintarsia.pattern.names import is_pattern
from lintarsia.reading import Reading, read_chart
from lintarsia.result import NOWHERE, Finding, Level, Picture, Result
from lintarsia.result.fingerprints import fingerprints
from lintarsia.rules.base import Rule, Work
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings.model import Armed, ArmedRule, Settings


class Checked(NamedTuple):
    """What one chart came to. `picture` is there where there is something to show."""

    results: tuple[Result, ...]
    picture: Picture | None


def shown(path: str) -> str:
    """A path as reports print it: forward slashes, and bytes that are not UTF-8 as `\\xNN`."""
    if not path.isascii():
        path = path.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")
    return path.replace(os.sep, "/")


CLEAN = Checked((), None)


def check_chart(file: str, data: bytes | None, settings: Settings) -> Checked:
    """Read and check one chart. `file` names it in the results; `data` is its content, or None to read the file.
    A file named `*.pattern.yaml` is a pattern of several charts, and is checked as one.

    Never raises for anything a chart holds: what cannot be read is a result, and a rule that fails is a result of
    `engine/rule-failed` beside what the other rules found.
    """
    if is_pattern(file):
        from lintarsia.engine.patterns import check_pattern

        return check_pattern(file, data, settings)
    seen = examine(file, data, settings)
    return checked(seen.results, seen.work)


def checked(results: tuple[Result, ...], work: Work | None) -> Checked:
    """The results, and a picture where there are any and a chart to show."""
    return Checked(results, _picture(work.chart) if work else None) if results else CLEAN


class Examined(NamedTuple):
    """What came of looking at one chart, for those who go on working with it. `work` is None where it has no grid."""

    results: tuple[Result, ...]
    reading: Reading | None
    work: Work | None


def examine(file: str, data: bytes | None, settings: Settings, name: str = "") -> Examined:
    """As `check_chart`, for a chart alone; hands on what was read and worked out on the way. Results call the file
    `name`, where that is given."""
    steps = Examining(file, data, settings, name)
    steps.read()
    return Examined(steps.judge(), steps.reading, steps.work)


class Examining:
    """`examine` in steps, for those who take many charts through one step before the next."""

    def __init__(self, file: str, data: bytes | None, settings: Settings, name: str = "") -> None:
        self.reading: Reading | None = None
        self.work: Work | None = None
        self._file, self._data, self._settings = file, data, settings
        self._name = name or shown(file)
        self.armed = settings.armed(os.path.abspath(file))
        self._found: list[tuple[str, Finding]] = []

    def read(self) -> None:
        settings = self._settings
        try:
            self.reading = read_chart(self._file, self._data, max_bytes=settings.max_bytes)
        except Exception as failure:
            self._found = [failed("the reader", "reader-failed", failure)]
            return
        self._found = list(self.reading.problems)
        chart = self.reading.chart
        if chart is not None:
            self.work = Work(chart, settings.limits, settings.reckoning)

    def plan(self) -> None:
        """Work the supplies out ahead of the rules that ask for them; what fails here will fail and be told there."""
        if self.work is not None:
            with suppress(Exception):
                _ = self.work.plan.threads

    def judge(self) -> tuple[Result, ...]:
        """All results, by every rule that holds for the chart. After `read`, and only once."""
        for check in self.armed.checks:
            self.apply(check)
        return self.results()

    def apply(self, check: ArmedRule) -> None:
        """One of the rules that hold for the chart."""
        if self.work is None:
            return
        rule, run, options = check
        chart = self.work.chart
        if chart.assumed and self._settings.rulebook.info(rule).judges_by & chart.assumed:
            return
        found = self._found
        try:
            for finding in run(self.work, options):
                found.append((rule, finding))  # not gathered first: what was found before a failure is kept
        except Exception as failure:
            found.append(rule_failed(self._settings.rulebook.load(rule), failure))

    def results(self) -> tuple[Result, ...]:
        """What was found, completed: once all rules have been applied."""
        chart = self.work.chart if self.work is not None else None
        if not self._found and not (chart and chart.suppressions):
            return ()
        return _complete(self._name, self._found, chart, self.armed, self._settings.rulebook)


def failed(who: str, key: str, failure: Exception, kind: str = "chart") -> tuple[str, Finding]:
    """The result for a rule or reader that itself failed; with a traceback on standard error while debugging."""
    if os.environ.get("LINTARSIA_DEBUG"):
        import traceback

        traceback.print_exception(failure, file=sys.stderr)
    told = " ".join(str(failure).split())[:200]
    what = type(failure).__name__ + (f": {told}" if told else "")
    message = f"{who} itself failed on this {kind} ({what}); the {kind} is not to blame, please report it"
    return "engine/rule-failed", Finding(key, message, NOWHERE, pattern=f"{who} {type(failure).__name__}")


def rule_failed(rule: Rule, failure: Exception, kind: str = "chart") -> tuple[str, Finding]:
    """The result for a rule that failed. One from elsewhere is named with where it is from, and its makers told of."""
    name = rule.info.name
    if not rule.origin:
        return failed(f"the rule {name}", "rule-failed", failure, kind)
    from lintarsia.settings.vetting import told

    engine_rule, finding = failed(f"the rule {name}", "rule-failed", failure, kind)
    message = f"the rule {name}, {rule.origin}, failed on this {kind} ({told(failure)}); the {kind} is not to blame"
    remedy = f"tell whoever made the rule; until it is mended, {name}: off in the settings leaves it out"
    return engine_rule, replace(finding, message=message, remedy=remedy)


def _complete(
    name: str, found: list[tuple[str, Finding]], chart: Chart | None, armed: Armed, rulebook: Rulebook
) -> tuple[Result, ...]:
    covers = [
        covering(chart.suppressions, rulebook.info(rule), finding) if chart and chart.suppressions else []
        for rule, finding in found
    ]
    if chart and chart.suppressions:
        used = {i for cover in covers for i in cover}
        off = {name for name, level in armed.levels.items() if level is Level.OFF}
        off |= {
            s.rule for s in chart.suppressions if s.rule in rulebook and rulebook.info(s.rule).judges_by & chart.assumed
        }
        idle = list(idle_suppressions(chart, used, off, rulebook))
        found = found + idle
        covers += [[]] * len(idle)
    return tuple(_results(name, found, covers, chart, armed, rulebook))


def _results(
    name: str,
    found: list[tuple[str, Finding]],
    covers: list[list[int]],
    chart: Chart | None,
    armed: Armed,
    rulebook: Rulebook,
) -> Iterator[Result]:
    for (rule, finding), cover, mark in zip(found, covers, fingerprints(found), strict=True):
        info = rulebook.info(rule)
        level = armed.levels.get(rule) or finding.level or info.level
        if level is Level.OFF:
            continue
        yield Result(
            rule,
            finding.key,
            level,
            finding.message,
            name,
            finding.region,
            finding.row,
            finding.stitches,
            info.remedy if finding.remedy is None else finding.remedy,
            finding.fixes,
            mark.own,
            bool(cover),
            chart.suppressions[cover[0]].justification if chart and cover else "",
            alike=mark.alike,
        )


def _picture(chart: Chart) -> Picture:
    return Picture(
        chart.grid.rows,
        {symbol: colour.shade for symbol, colour in chart.colours.items()},
        ((str(chart.side(1)), str(chart.side(2))) * (chart.grid.height // 2 + 1))[: chart.grid.height],
        {symbol: colour.name for symbol, colour in chart.colours.items()},
        chart.worked is Worked.ROUND,
        chart.title,
    )
