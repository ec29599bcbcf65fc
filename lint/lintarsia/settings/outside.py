"""Rules from elsewhere that a settings file names: of installed packages, and of Python files beside it.

To load a rule is to run its code. Nothing is loaded, looked up or imported unless the settings file in force names it.
"""

import os
import sys
from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from types import ModuleType
from typing import NamedTuple

from lintarsia.ground.values import dataclass
from lintarsia.rules.base import RULE_API, Rule
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings.trust import refusal
from lintarsia.settings.vetting import Unsound, held, own_rule, told
from lintarsia.telling.guessing import did_you_mean

ENTRY_POINTS = "lintarsia.rules"


class Unloadable(Exception):  # noqa: N818 - becomes a Trouble with its place in the settings
    """Rules cannot be had: why, in words for the user."""


class LocalFile(NamedTuple):
    """A Python file with rules: as the settings name it, and where it is."""

    said: str
    path: str


def local_file(said: str, folder: str) -> LocalFile:
    """The file that settings in `folder` name. Raises Unloadable where there is none, or none inside that folder."""
    path = os.path.realpath(os.path.join(folder, said))
    if os.path.isabs(said) or os.path.commonpath([path, os.path.realpath(folder)]) != os.path.realpath(folder):
        raise Unloadable(f"{said!r} is outside the folder of these settings; local rules lie in it or below")
    if not os.path.isfile(path):
        raise Unloadable(f"there is no file {said!r} in the folder of these settings")
    return LocalFile(said, path)


def load_package(name: str) -> tuple[Rule, ...]:
    """The rules of the installed package that calls itself `name` in the entry points `lintarsia.rules`.

    The entry point names a module with `RULE_API` and `RULES`, a list of rule modules or Rules; each rule's name
    begins with `<name>/`. Raises Unloadable where it is not installed, not for this rule API, or not in order.
    """
    _allow()
    from importlib.metadata import entry_points

    points = list(entry_points(group=ENTRY_POINTS, name=name))
    if not points:
        known = sorted(entry_points(group=ENTRY_POINTS).names)
        near = did_you_mean(name, known) or (f"; there are {', '.join(known)}" if known else "; none is installed here")
        raise Unloadable(f"there is no rule package {name!r}{near}")
    makers = sorted({f"{point.dist.name} {point.dist.version}" for point in points if point.dist})
    if len({point.value for point in points}) > 1:
        raise Unloadable(f"several packages call themselves {name!r}: {', '.join(makers)}")
    origin = f"of {' or '.join(makers) or name}"
    try:
        module = held(points[0].load)
    except Exception as failure:
        raise _broken(f"the rule package {name!r} ({origin.removeprefix('of ')})", failure) from failure
    stated = getattr(module, "RULE_API", None)
    if stated != RULE_API:
        found = "states no RULE_API" if stated is None else f"is written for rule API {stated!r}"
        raise Unloadable(f"the rule package {name!r} {origin} {found}; this lintarsia has rule API {RULE_API}")
    try:
        return tuple(own_rule(rule, origin, group=name) for rule in _listed(module))
    except Unsound as fault:
        raise Unloadable(f"the rule package {name!r} {origin} is not in order: {fault}") from None


def load_file(file: LocalFile) -> tuple[Rule, ...]:
    """The rules of a Python file: one as a rule module has it, or several in a list `RULES`.

    The file stands alone: its folder is not put on the import path, and nothing is written beside it.
    """
    _allow()
    try:
        module = _module(file)
    except Exception as failure:
        raise _broken(f"the local rules {file.said}", failure) from failure
    stated = getattr(module, "RULE_API", RULE_API)
    if stated != RULE_API:
        raise Unloadable(f"{file.said} is written for rule API {stated!r}; this lintarsia has rule API {RULE_API}")
    try:
        return tuple(own_rule(rule, f"in {file.said}") for rule in _listed(module))
    except Unsound as fault:
        raise Unloadable(f"the local rules {file.said} are not in order: {fault}") from None


def _allow() -> None:
    refused = refusal(os.environ)
    if refused is not None:
        raise Unloadable(refused)


def _listed(module: object) -> Iterable[object]:
    """The rules that a module lists, or the module itself where it is a rule."""
    rules = getattr(module, "RULES", None)
    if rules is None:
        if not hasattr(module, "INFO"):
            raise Unsound("it has neither INFO nor a list RULES")
        return [module]
    if not isinstance(rules, list | tuple) or not rules:
        raise Unsound("RULES is not a list of rules")
    return rules


def _module(file: LocalFile) -> ModuleType:
    """Run a file as a module under a name made of its place and its text, so that other processes find the same."""
    from hashlib import blake2b
    from importlib.util import decode_source

    with open(file.path, "rb") as stream:
        source = stream.read()
    mark = blake2b(os.fsencode(file.path) + b"\0" + source, digest_size=12).hexdigest()
    name = f"lintarsia_local_{mark}"
    if name not in sys.modules:
        code = compile(decode_source(source), file.path, "exec", dont_inherit=True)
        module = ModuleType(name)
        module.__file__ = file.path
        sys.modules[name] = module  # dataclasses look their module up while they are made
        try:
            held(lambda: exec(code, module.__dict__))
        except BaseException:
            del sys.modules[name]
            raise
    return import_module(name)


def _broken(what: str, failure: Exception) -> Unloadable:
    if os.environ.get("LINTARSIA_DEBUG"):
        import traceback

        traceback.print_exception(failure, file=sys.stderr)
    return Unloadable(f"{what} cannot be loaded ({told(failure)})")


@dataclass(frozen=True)
class OutsideRules:
    """The `load` of a rulebook with rules from elsewhere. Sent to another process as names, and loaded there anew."""

    below: Callable[[str], Rule]
    packages: tuple[str, ...]
    files: tuple[LocalFile, ...]
    own: Mapping[str, Rule]

    def __call__(self, name: str) -> Rule:
        return self.own[name] if name in self.own else self.below(name)

    def __reduce__(self) -> tuple[object, ...]:
        return _load_again, (self.below, self.packages, self.files)


def _load_again(below: Callable[[str], Rule], packages: tuple[str, ...], files: tuple[LocalFile, ...]) -> OutsideRules:
    rules = [rule for package in packages for rule in load_package(package)]
    rules += [rule for file in files for rule in load_file(file)]
    return OutsideRules(below, packages, files, {rule.info.name: rule for rule in rules})


class Joining:
    """A book and the rules from elsewhere that join it, one source after another."""

    def __init__(self, book: Rulebook) -> None:
        self._below = book
        self._taken = {name.partition("/")[0] for name in book.names}
        self._origins: dict[str, str] = {}
        self._own: dict[str, Rule] = {}
        self._packages: list[str] = []
        self._files: list[LocalFile] = []

    def add_package(self, name: str) -> None:
        """Raises Unloadable."""
        if name in self._taken:
            raise Unloadable(f"{name!r} is a group of the house's own rules, so no rule package can be called that")
        if name in self._packages:
            raise Unloadable(f"the rule package {name!r} is named twice")
        self._join(load_package(name))
        self._packages.append(name)

    def add_file(self, file: LocalFile) -> None:
        """Raises Unloadable."""
        if file.path in (known.path for known in self._files):
            raise Unloadable(f"the local rules {file.said} are named twice")
        self._join(load_file(file))
        self._files.append(file)

    def _join(self, rules: Iterable[Rule]) -> None:
        for rule in rules:
            name, group = rule.info.name, rule.info.group
            if name in self._own:
                raise Unloadable(f"the rule name {name!r} is taken by a rule {self._own[name].origin}")
            if group in self._taken:
                raise Unloadable(
                    f"the rule name {name!r} {rule.origin} begins with {group}/, which is the house's own; "
                    "give your rules a group of their own"
                )
            if group in self._packages and not rule.origin.startswith("of "):
                raise Unloadable(f"the rule name {name!r} {rule.origin} begins as those of the rule package {group!r}")
            self._own[name] = rule

    def book(self) -> Rulebook:
        below = self._below
        load = OutsideRules(below.load, tuple(self._packages), tuple(self._files), self._own)
        return Rulebook(tuple(sorted([*below.names, *self._own])), load, below.kinds)
