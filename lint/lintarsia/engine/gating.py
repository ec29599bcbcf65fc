"""The test knits of a pattern at its release: found in the repository, turned into results and boxes of the card."""

import os
from collections.abc import Iterable
from dataclasses import replace

from lintarsia.engine.completing import results_on
from lintarsia.engine.knitting import gather_knits
from lintarsia.engine.naming import files_naming
from lintarsia.engine.subjects import Found, subject_of
from lintarsia.engine.targets import Target
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.knits.gate import Gate, gate
from lintarsia.knits.summary import PatternKnits
from lintarsia.pattern.card import Card
from lintarsia.pattern.duties import EVERY_SIZE
from lintarsia.pattern.work import PatternWork
from lintarsia.result import Result
from lintarsia.settings import Settings, SettingsFinder


def logs_of(file: str, finder: SettingsFinder) -> list[str]:
    """The logs of the repository that name a pattern, or one of its charts by itself."""
    own = finder.for_folder(os.path.dirname(os.path.abspath(file)))
    return _logs_naming([file, *_charts_of(file, own)], own, finder)


def _charts_of(file: str, own: Settings) -> list[str]:
    subject = subject_of(file, None, own)
    subject.read()
    return list(subject.named())


def _logs_naming(paths: Iterable[str], own: Settings, finder: SettingsFinder) -> list[str]:
    named = [Target(path, own, 0) for path in paths]
    return [target.path for target in files_naming(named, finder) if kind_of(target.path) is Kind.KNIT]


def knits_of(file: str, finder: SettingsFinder) -> PatternKnits | None:
    """The test knits of one pattern and of its charts, wherever in the repository their logs lie; None for none."""
    own = finder.for_folder(os.path.dirname(os.path.abspath(file)))
    charts = _charts_of(file, own)
    logs = _logs_naming([file, *charts], own, finder)
    if not logs:
        return None
    found = {os.path.realpath(one.path): one for one in gather_knits([file, *logs], finder.fixed).patterns}
    of = found.get(os.path.realpath(file))
    real = set(map(os.path.realpath, charts))
    beside = tuple(one for path, one in found.items() if path in real)
    return replace(of, of_charts=beside) if of is not None and (of.knits or beside) else None


def knit_gate(file: str, work: PatternWork, finder: SettingsFinder) -> Gate | None:
    """From every log of the repository that names the pattern; None where there is none."""
    found = knits_of(file, finder)
    return None if found is None else gate(found, work)


def gate_results(file: str, found: Gate, settings: Settings) -> tuple[Result, ...]:
    """With the levels that the settings give the three rules."""
    return results_on(file, [Found(one.rule, replace(one.finding, file=one.file)) for one in found.told], settings)


def with_gate(card: Card, found: Gate) -> Card:
    """The card with who has knitted what, and with the boxes ticked that need nobody any more."""
    ticked = (
        (found.every_size, "Every size has been finished by a test knitter, with the stitches of now."),
        (found.all_answered, "All trouble and all questions of the test knitters are answered."),
        (found.yarn_enough, "The yarn stated covers what every test knitter has used."),
    )
    duties = tuple(duty for duty in card.duties if not (found.every_size and duty is EVERY_SIZE))
    return replace(card, knitted=found.lines, ticked=tuple(words for done, words in ticked if done), duties=duties)
