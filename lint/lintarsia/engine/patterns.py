"""One pattern file against the rules on patterns. The charts it names are checked on their own."""

import os
from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.engine.checking import Checked, failed, rule_failed, shown
from lintarsia.pattern.charts import charts_beside, read_charts
from lintarsia.pattern.model import Accepted, Pattern
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import About, PatternWork
from lintarsia.result import Finding, Level, Result
from lintarsia.result.fingerprints import fingerprints
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings.model import Armed, Settings
from lintarsia.telling.guessing import did_you_mean


class Found(NamedTuple):
    """A rule's name, what it found, and which accepted results cover it."""

    rule: str
    about: About
    covers: tuple[Accepted, ...] = ()


def check_pattern(file: str, data: bytes | None, settings: Settings) -> Checked:
    """Read and check one pattern. `file` names it in the results; `data` is its content, or None to read the file.

    Never raises for anything a pattern or its charts hold. Charts are read from the disk, relative to `file`.
    """
    armed = settings.armed(os.path.abspath(file))
    found: list[Found] = []
    pattern = None
    try:
        reading = read_pattern(file, data, max_bytes=settings.max_bytes)
    except Exception as failure:
        found.append(_own(failed("the reader", "reader-failed", failure, "pattern")))
    else:
        found += [Found(rule, About(finding)) for rule, finding in reading.problems]
        pattern = reading.pattern
    if pattern is not None:
        try:
            work = work_on(pattern, settings)
        except Exception as failure:
            found.append(_own(failed("the reader of its charts", "reader-failed", failure, "pattern")))
        else:
            found += _judged(work, armed, settings.rulebook)
        found = [item._replace(covers=tuple(_covering(pattern, item, settings.rulebook))) for item in found]
        found += _idle(pattern, found, armed, settings.rulebook)
    return Checked(tuple(_results(shown(file), found, armed, settings.rulebook)), None)


def work_on(pattern: Pattern, settings: Settings) -> PatternWork:
    """The pattern with its charts read, as the rules and the release card look at it."""
    return PatternWork(
        pattern,
        read_charts(pattern, settings.max_bytes),
        charts_beside(pattern, settings.max_bytes),
        settings.limits,
        settings.reckoning,
    )


def _own(pair: tuple[str, Finding]) -> Found:
    return Found(pair[0], About(pair[1]))


def _judged(work: PatternWork, armed: Armed, rulebook: Rulebook) -> Iterator[Found]:
    for rule, run, options in armed.checks:
        try:
            for about in run(work, options):
                yield Found(rule, about)
        except Exception as failure:
            yield _own(rule_failed(rulebook.load(rule), failure, "pattern"))


def _covering(pattern: Pattern, item: Found, rulebook: Rulebook) -> Iterator[Accepted]:
    for accepted in pattern.suppressions if rulebook.info(item.rule).suppressible else ():
        piece = accepted.piece in (None, item.about.piece)
        size = accepted.size is None or item.about.sizes == (accepted.size,)
        if accepted.rule == item.rule and piece and size:
            yield accepted


def _idle(pattern: Pattern, found: list[Found], armed: Armed, rulebook: Rulebook) -> Iterator[Found]:
    """One for each accepted result that accepts nothing; one for a rule that is off is left in peace."""
    used = {accepted.index for item in found for accepted in item.covers}
    for accepted in pattern.suppressions:
        if accepted.index in used:
            continue
        region = pattern.places.value("suppress", accepted.index, "rule")
        if accepted.rule not in rulebook:
            near = did_you_mean(accepted.rule, rulebook.names)
            message = f"there is no rule {accepted.rule!r} to suppress{near}"
            finding = Finding("unknown-rule", message, region, pattern=accepted.rule)
            yield Found("suppress/unknown-rule", About(finding))
        elif not rulebook.info(accepted.rule).suppressible:
            message = f"{accepted.rule} cannot be suppressed; mend the file instead"
            yield Found(
                "suppress/unmatched", About(Finding("not-suppressible", message, region, pattern=accepted.rule))
            )
        elif armed.levels.get(accepted.rule) is not Level.OFF:
            where = "".join(f" in {part}" for part in (accepted.piece, accepted.size) if part)
            message = f"this suppression of {accepted.rule}{where} matches no result"
            yield Found("suppress/unmatched", About(Finding("unmatched", message, region, pattern=accepted.rule)))


def _results(name: str, found: list[Found], armed: Armed, rulebook: Rulebook) -> Iterator[Result]:
    marks = fingerprints([(item.rule, item.about.finding) for item in found])
    for item, mark in zip(found, marks, strict=True):
        finding, info = item.about.finding, rulebook.info(item.rule)
        level = armed.levels.get(item.rule) or finding.level or info.level
        if level is not Level.OFF:
            yield Result(
                item.rule,
                finding.key,
                level,
                finding.message,
                name,
                finding.region,
                remedy=info.remedy if finding.remedy is None else finding.remedy,
                fixes=finding.fixes,
                fingerprint=mark.own,
                suppressed=bool(item.covers),
                justification=item.covers[0].justification if item.covers else "",
                alike=mark.alike,
            )
