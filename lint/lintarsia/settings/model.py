"""Settings as values: which charts, which rules at which level with which options, and what blocks."""

import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, fields
from typing import Any, NamedTuple

from lintarsia.chart import HOUSE_RECKONING, Reckoning
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import SettingsTrouble
from lintarsia.ground.values import dataclass
from lintarsia.result import Level
from lintarsia.rules.base import Rule
from lintarsia.rules.rulebook import Rulebook, house_rulebook
from lintarsia.settings.designer import NOBODY, Designer
from lintarsia.settings.globs import matches
from lintarsia.telling.languages import ENGLISH

SETTINGS_NAME = "lintarsia.yaml"
DEFAULT_MAX_BYTES = 4 * 2**20
DEFAULT_MAX_STITCHES = 500_000  # a bedcover in fine yarn, 600 by 800; house value


@dataclass(frozen=True, slots=True)
class RuleSetting:
    """What a settings file says of one rule: a level (None: the rule's own holds) and option values by field name."""

    level: Level | None = None
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Override:
    """Rule settings for the charts that `paths` match; later overrides win over earlier ones."""

    paths: tuple[str, ...]
    rules: Mapping[str, RuleSetting]


@dataclass(frozen=True, slots=True)
class Answers:
    """Where test knitters may send their logs: a mail address, and the address of an issue with `{title}` and `{body}`
    to be filled in. "" where there is none."""

    mail: str = ""
    issue: str = ""

    def __bool__(self) -> bool:
        return bool(self.mail or self.issue)


class ArmedRule(NamedTuple):
    """A rule ready to run on a chart or a pattern: its name, its check for that, and the options it is given."""

    name: str
    check: Callable[[Any, Any], Iterator[Any]]
    options: Any


@dataclass(frozen=True)
class Armed:
    """The rules that hold for a chart: those to run, and the levels set for the engine's own results."""

    checks: tuple[ArmedRule, ...]
    levels: Mapping[str, Level]


@dataclass(frozen=True, eq=False)
class Settings:
    """One settings file, or the defaults where there is none (`file` is None). Patterns start from `root`."""

    root: str
    file: str | None = None
    charts: tuple[str, ...] = (f"*{Kind.CHART.suffix}",)
    exclude: tuple[str, ...] = ()
    rules: Mapping[str, RuleSetting] = field(default_factory=dict)
    overrides: tuple[Override, ...] = ()
    block: Level = Level.ERROR
    reckoning: Reckoning = HOUSE_RECKONING
    answers: Answers = Answers()
    designer: Designer = NOBODY
    terms: str = "american"  # whose words rows are written in: "american" or "british"
    language: str = ENGLISH  # of the pages' own words; site/words has a catalogue of each other one
    max_bytes: int = DEFAULT_MAX_BYTES
    max_stitches: int = DEFAULT_MAX_STITCHES
    baseline: str | None = None  # the absolute path of the file with accepted results
    releases: str | None = None  # the absolute path of the file that records releases
    rulebook: Rulebook = field(default_factory=house_rulebook, repr=False)
    _armed: dict[tuple[Kind, tuple[int, ...]], Armed] = field(default_factory=dict, repr=False)

    def __reduce__(self) -> tuple[object, ...]:
        """For another process: the rulebook first, since loading it brings the types that option values may have."""
        said = {f.name: getattr(self, f.name) for f in fields(self) if f.name not in ("rulebook", "_armed")}
        return _received, (self.rulebook, said)

    def relative(self, path: str) -> str:
        """`path` (absolute) as the patterns see it."""
        if path.startswith(self.root):
            inside = path[len(self.root) :]
            if self.root.endswith("/") or inside.startswith(os.sep) or not inside:
                return inside.replace(os.sep, "/").strip("/")
        return os.path.relpath(path, self.root).replace(os.sep, "/")

    def excludes(self, path: str) -> bool:
        """Whether the file or folder at the absolute `path` is left out."""
        return bool(self.exclude) and matches(self.exclude, self.relative(path))

    def takes(self, path: str) -> bool:
        """Whether a file met in a folder is a chart by its name."""
        return matches(self.charts, self.relative(path))

    def armed(self, path: str) -> Armed:
        """The rules for the chart or pattern at the absolute `path`; worked out once for each set of overrides."""
        kind = kind_of(path)
        applying: tuple[int, ...] = ()
        if self.overrides:
            name = self.relative(path)
            applying = tuple(i for i, override in enumerate(self.overrides) if matches(override.paths, name))
        key = (kind, applying)
        if key not in self._armed:
            self._armed[key] = self._arm([self.rules, *(self.overrides[i].rules for i in applying)], kind)
        return self._armed[key]

    def _arm(self, layers: list[Mapping[str, RuleSetting]], kind: Kind) -> Armed:
        house: list[ArmedRule] = []
        outside: list[ArmedRule] = []  # run after the house's own, which they so cannot disturb, whatever they do
        levels: dict[str, Level] = {}
        for name in self.rulebook.names:
            level: Level | None = None
            values: dict[str, object] = {}
            for layer in layers:
                if name in layer:
                    level = layer[name].level or level
                    values.update(layer[name].values)
            if level is not None:
                levels[name] = level
            if level is not Level.OFF and self.rulebook.looks_at(name, kind):
                rule = self.rulebook.load(name)
                if level is None and rule.info.level is Level.OFF:
                    continue
                check = rule.check_of(kind)
                if check is not None:
                    armed = ArmedRule(name, check, self._options(rule, values))
                    (outside if rule.origin else house).append(armed)
        return Armed((*house, *outside), levels)

    def _options(self, rule: Rule, values: Mapping[str, object]) -> Any:
        try:
            return rule.options(**values)
        except ValueError as failure:  # each layer is in order by itself, but not one on the other
            told = f"{self.file}: the options of {rule.info.name} do not go together: {failure}"
            raise SettingsTrouble(told, self.file) from None


def _received(rulebook: Rulebook, said: Mapping[str, Any]) -> Settings:
    return Settings(rulebook=rulebook, **said)
