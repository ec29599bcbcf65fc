"""Rules from elsewhere are looked over once, when they are loaded, and what they find as they find it.

The house's own rules are held to the same by their tests and pay nothing here.
"""

import os
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from contextlib import redirect_stdout
from dataclasses import MISSING, fields, is_dataclass
from threading import RLock
from typing import Any

import lintarsia
from lintarsia.result import Basis, Edit, Finding, Fix, Level, Region, RuleInfo
from lintarsia.rules.base import NoOptions, Rule, Work, checks_in, rule_with
from lintarsia.settings.options import option_types, takes

_NAME = re.compile(r"[a-z][a-z0-9-]*/[a-z][a-z0-9-]*", re.ASCII)
_KEY = re.compile(r"[a-z][a-z0-9-]*", re.ASCII)
_HERE = os.path.dirname(os.path.abspath(lintarsia.__file__)) + os.sep
_PYTHON = os.path.dirname(os.path.abspath(os.__file__)) + os.sep
_END = object()
_ALONE = RLock()  # standard output is everybody's: of two threads that turn it aside one would turn it back wrongly


class Unsound(Exception):  # noqa: N818 - becomes a Trouble
    """What was given as a rule is none: why."""


def own_rule(given: object, origin: str, group: str | None = None) -> Rule:
    """A rule module, or a Rule, as a Rule whose findings are looked over. Raises Unsound for what is not in order."""
    info = getattr(given, "INFO", None) if not isinstance(given, Rule) else given.info
    if not isinstance(info, RuleInfo):
        raise Unsound(f"{_called(given)} has no INFO that is a RuleInfo")
    _sound_info(info)
    if group is not None and info.group != group:
        raise Unsound(f"the rule name {info.name!r} does not begin with {group}/")
    options: Any = given.options if isinstance(given, Rule) else getattr(given, "Options", NoOptions)
    checks = checks_in(given)
    if not checks or not all(map(callable, checks.values())):
        raise Unsound(f"{info.name} has no function check(work, options)")
    _sound_options(info.name, options)
    return rule_with(info, options, {kind: Watched(check, info) for kind, check in checks.items()}, origin)


def _called(given: object) -> str:
    return str(getattr(given, "__name__", None) or repr(given)[:60])


def _sound_info(info: RuleInfo) -> None:
    if not isinstance(info.name, str) or not _NAME.fullmatch(info.name):
        raise Unsound(f"{info.name!r} is no rule name; expected group/name in small letters, digits and hyphens")
    if not isinstance(info.level, Level):
        raise Unsound(f"the level of {info.name} is {info.level!r}, not one of lintarsia.result.Level")
    for part in ("summary", "why", "remedy"):
        text = getattr(info, part)
        if not isinstance(text, str) or not text.strip():
            raise Unsound(f"{info.name} says nothing in {part}")
    if not isinstance(info.keys, Mapping) or not info.keys:
        raise Unsound(f"{info.name} has no keys")
    for key, phrase in info.keys.items():
        if not isinstance(key, str) or not _KEY.fullmatch(key) or not isinstance(phrase, str):
            raise Unsound(f"{key!r} is no key of {info.name}; expected small letters, digits and hyphens, and a phrase")
    _sound_facts(info)
    if not isinstance(info.sources, tuple) or not all(isinstance(source, str) for source in info.sources):
        raise Unsound(f"the sources of {info.name} are not a tuple of texts")


def _sound_facts(info: RuleInfo) -> None:
    for fact in ("suppressible", "acceptable", "fix_from_plan", "blinds", "once_a_pattern"):
        if not isinstance(getattr(info, fact), bool):
            raise Unsound(f"{fact} of {info.name} is not True or False")
    if not isinstance(info.judges_by, Set) or not all(isinstance(part, Basis) for part in info.judges_by):
        raise Unsound(f"judges_by of {info.name} is not a set of lintarsia.result.Basis")


def _sound_options(name: str, options: Any) -> None:
    if not isinstance(options, type) or not is_dataclass(options):
        raise Unsound(f"the Options of {name} are not a dataclass")
    for field in fields(options):
        if field.default is MISSING and field.default_factory is MISSING:
            raise Unsound(f"the option {field.name} of {name} has no default")
    try:
        kinds = option_types(options)
        options()
    except Exception as failure:
        raise Unsound(f"the Options of {name} cannot be made ({told(failure)})") from failure
    for option, kind in kinds.items():
        if not takes(kind):
            raise Unsound(f"the option {option} of {name} has a type that settings cannot state ({kind!r})")


class Watched:
    """A rule's check: its findings are looked over, its prints go to standard error, and it cannot end the run."""

    def __init__(self, check: Callable[..., Iterable[Any]], info: RuleInfo) -> None:
        self._check, self._info = check, info

    def __call__(self, work: Any, options: Any) -> Iterator[Any]:
        found = held(lambda: iter(self._check(work, options)))
        while True:
            item = held(lambda: next(found, _END))
            if item is _END:
                return
            self._look_over(item, work)
            yield item

    def _look_over(self, item: Any, work: Any) -> None:
        finding = item if isinstance(work, Work) else _found_in(item, work)
        if not isinstance(finding, Finding):
            raise TypeError(f"it found {finding!r:.60}, which is no Finding")
        if finding.key not in self._info.keys:
            raise ValueError(f"its key {finding.key!r} is not one of {', '.join(self._info.keys)}")
        if not isinstance(finding.message, str) or not finding.message.strip():
            raise ValueError("a finding has no message")
        _region(finding.region)
        if not isinstance(work, Work):
            return _rest(finding)
        _span("row", (finding.row,), work.chart.grid.height)
        _span("stitch", finding.stitches or (), work.chart.grid.width)
        if finding.stitches is not None and (finding.row is None or len(finding.stitches) != 2):
            raise ValueError("stitches are not (first, last) of a row")
        _rest(finding)


def _found_in(item: object, work: object) -> object:
    """The finding in what a rule on anything but charts found; those on patterns say what of it they are about."""
    from lintarsia.pattern.work import About, PatternWork

    if not isinstance(work, PatternWork):
        return item
    if not isinstance(item, About):
        raise TypeError(f"it found {item!r:.60}, which is no About")
    if not isinstance(item.piece, str | None) or not isinstance(item.sizes, tuple):
        raise ValueError("its piece is not a text, or its sizes are not a tuple of texts")
    return item.finding


def held(step: Callable[[], Any]) -> Any:
    """Run code from elsewhere: what it prints stays out of the report, and it cannot end the run."""
    try:
        with _ALONE, redirect_stdout(sys.stderr):
            return step()
    except SystemExit:
        raise RuntimeError("it tried to end the run") from None
    except StopIteration:  # in a plain function, where Python would take it for the end of ours
        raise RuntimeError("it raised StopIteration") from None


def _region(region: object) -> None:
    if not isinstance(region, Region) or not all(type(part) is int and part >= 1 for part in region):
        raise ValueError(f"its region is {region!r:.60}, not a Region of whole numbers from 1")
    if (region.end_line, region.end_column) < (region.line, region.column):
        raise ValueError("its region ends before it begins")


def _span(what: str, numbers: Iterable[object], most: int) -> None:
    for number in numbers:
        if number is not None and (type(number) is not int or not 1 <= number <= most):
            raise ValueError(f"its {what} is {number!r}, not a whole number from 1 to {most}")


def _rest(finding: Finding) -> None:
    if not (finding.level is None or isinstance(finding.level, Level)):
        raise ValueError(f"its level is {finding.level!r}, not one of lintarsia.result.Level")
    if not isinstance(finding.pattern, str) or not isinstance(finding.remedy, str | None):
        raise ValueError("its pattern or remedy is not a text")
    for fix in finding.fixes:
        if not isinstance(fix, Fix) or not all(isinstance(e, Edit) and isinstance(e.text, str) for e in fix.edits):
            raise ValueError("its fixes are not Fixes made of Edits")
        for edit in fix.edits:
            _region(edit.region)


def told(failure: BaseException) -> str:
    """What failed, in a line: the kind of failure, its words, and the last place outside of lintarsia."""
    words = " ".join(str(getattr(failure, "msg", failure)).split())[:200]
    text = type(failure).__name__ + (f": {words}" if words else "")
    place = where(failure)
    return f"{text}, {place}" if place else text


def where(failure: BaseException) -> str:
    """The file's name and the line in it where code from elsewhere failed; "" where that is not known."""
    if isinstance(failure, SyntaxError):
        return f"{os.path.basename(failure.filename)} line {failure.lineno}" if failure.filename else ""
    place, trace = "", failure.__traceback__
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if not file.startswith((_HERE, "<frozen")) and (not file.startswith(_PYTHON) or "site-packages" in file):
            place = f"{os.path.basename(file)} line {trace.tb_lineno}"
        trace = trace.tb_next
    return place
