"""What was found in a file, of whatever kind, completed to results: levels, marks, and what the file accepts of it."""

import os
from collections.abc import Iterator, Sequence, Set

from lintarsia.engine.shown import shown
from lintarsia.engine.subjects import Acceptance, Found, Subject, subject_of
from lintarsia.result import Finding, Level, Result, RuleInfo
from lintarsia.result.fingerprints import fingerprints
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings.model import Armed, Settings
from lintarsia.telling.guessing import did_you_mean


def complete(
    name: str, found: list[Found], accepted: Sequence[Acceptance], subject: Subject, armed: Armed, rulebook: Rulebook
) -> tuple[Result, ...]:
    """The results of a file that they call `name`, in the order found; what it `accepted` and nobody found is told
    behind them."""
    covers: list[Sequence[int]] = [()] * len(found)
    if accepted:
        covers = [_covering(accepted, item, rulebook) for item in found]
        used = {i for cover in covers for i in cover}
        idle = list(_idle(subject, accepted, used, armed, rulebook))
        found = found + idle
        covers += [()] * len(idle)
    justified = [accepted[cover[0]].justification if cover else None for cover in covers]
    return tuple(_results(name, found, justified, armed, rulebook))


def results_on(file: str, told: list[Found], settings: Settings) -> tuple[Result, ...]:
    """What was found out about a file otherwise than by a check of it, as results, with the levels that `settings`
    give its rules. What the file accepts says nothing of them."""
    armed = settings.armed(os.path.abspath(file))
    return complete(shown(file), told, (), subject_of(file, None, settings), armed, settings.rulebook)


def _results(
    name: str, found: list[Found], justified: Sequence[str | None], armed: Armed, rulebook: Rulebook
) -> Iterator[Result]:
    marks = fingerprints([(item.rule, item.finding) for item in found])
    for (rule, finding, _), justification, mark in zip(found, justified, marks, strict=True):
        info = rulebook.info(rule)
        level = armed.levels.get(rule) or finding.level or info.level
        if level is Level.OFF:
            continue
        yield Result(
            rule,
            finding.key,
            level,
            finding.message,
            shown(finding.file) if finding.file else name,
            finding.region,
            finding.row,
            finding.stitches,
            info.remedy if finding.remedy is None else finding.remedy,
            finding.fixes,
            mark.own,
            justification is not None,
            justification or "",
            alike=mark.alike,
        )


def _covering(accepted: Sequence[Acceptance], item: Found, rulebook: Rulebook) -> list[int]:
    """Which of the accepted results cover what was found."""
    if not rulebook.info(item.rule).suppressible:
        return []
    return [i for i, own in enumerate(accepted) if own.rule == item.rule and own.covers(item)]


def _quiet(info: RuleInfo, armed: Armed, subject: Subject) -> bool:
    """Whether a rule is off, or silent for want of what it judges by."""
    return armed.levels.get(info.name, info.level) is Level.OFF or bool(info.judges_by & subject.assumed)


def _idle(
    subject: Subject, accepted: Sequence[Acceptance], used: Set[int], armed: Armed, rulebook: Rulebook
) -> Iterator[Found]:
    """One for each accepted result that accepts nothing; one for a rule that is off, or silent for want of what it
    judges by, is left in peace."""
    for i, own in enumerate(accepted):
        if i in used:
            continue
        region = subject.places.value("suppress", own.at, "rule")
        if own.rule not in rulebook:
            near = did_you_mean(own.rule, rulebook.names)
            message = f"there is no rule {own.rule!r} to suppress{near}"
            yield Found("suppress/unknown-rule", Finding("unknown-rule", message, region, pattern=own.rule))
        elif not rulebook.info(own.rule).suppressible:
            message = f"{own.rule} cannot be suppressed; mend the file instead"
            yield Found("suppress/unmatched", Finding("not-suppressible", message, region, pattern=own.rule))
        elif not _quiet(rulebook.info(own.rule), armed, subject):
            message = f"this suppression of {own.rule}{own.where} matches no result"
            finding = Finding("unmatched", message, region, own.row, own.stitches, pattern=own.rule)
            yield Found("suppress/unmatched", finding)
