"""A settings file to Settings. Every slip is a Trouble with its place; unknown names get a guess."""

import os
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, NoReturn

from lintarsia.chart import HOUSE_HOLDERS, HOUSE_RECKONING, Holders, Limits, Places, Reckoning
from lintarsia.chart.measure import parse_length, parse_reach
from lintarsia.ground.trouble import SettingsTrouble
from lintarsia.reading import Document, read_document
from lintarsia.reading.source import read_bytes
from lintarsia.result import Finding, Level, Region
from lintarsia.rules.rulebook import Rulebook, house_rulebook
from lintarsia.settings.designer import Designer
from lintarsia.settings.globs import BadGlob, check_glob
from lintarsia.settings.model import Answers, Override, RuleSetting, Settings
from lintarsia.settings.options import convert, field_name, option_types, written
from lintarsia.telling.guessing import did_you_mean
from lintarsia.telling.terms import Terms

MAX_SETTINGS_BYTES = 2**20

_SIZE = re.compile(r"([0-9]+) ?(B|KiB|MiB)?", re.ASCII)
_BYTES = {None: 1, "B": 1, "KiB": 2**10, "MiB": 2**20}


def read_settings(file: str, root: str | None = None, rulebook: Rulebook | None = None) -> Settings:
    """The settings that `file` states. `root` is what its patterns start from: its own folder unless given.

    Raises SettingsTrouble, with file, line and column, for whatever is not as schema/settings.schema.json describes it,
    for rules and options that do not exist, and for option values that a rule does not take.
    """
    book = rulebook or house_rulebook()
    folder = os.path.dirname(os.path.abspath(file)) if root is None else root
    # Settings may be shared by a link: they are named by whoever runs the check, or lie where their own rules begin.
    document = read_document(file, schema="settings.schema.json", max_bytes=MAX_SETTINGS_BYTES, read=_read)
    problems = document.sorted_problems()
    if problems and problems[0][1].key != "empty":
        raise SettingsTrouble("\n".join(_at(file, f.region, f.message, _mend(document, f)) for _, f in problems), file)
    reader = _Reader(file, document.places, book)
    reader.load_outside(document.data or {})
    return reader.settings(document.data or {}, folder)


def parse_size(text: str) -> int:
    """`"4 MiB"` (or B, KiB, or a bare number of bytes) to bytes. Raises ValueError for anything else."""
    match = _SIZE.fullmatch(text)
    if not match:
        raise ValueError(f"{text!r} is not a size; write a number and B, KiB or MiB")
    return int(match[1]) * _BYTES[match[2]]


def _read(file: str) -> bytes:
    return read_bytes(file, MAX_SETTINGS_BYTES)


def _mend(document: Document, finding: Finding) -> str | None:
    """What to do about a fault of the file; the reader's own words for one without any keys are about charts."""
    places, about = document.places, (finding.key, finding.region)
    for key, place in (
        ("terms", ("unknown-key", places.key("terms"))),
        ("words", ("wrong-type", places.value("words"))),
    ):
        if about == place:
            terms = Terms.AMERICAN if _as_written(document, key) == Terms.AMERICAN else Terms.BRITISH
            return f"write `words: {{terms: {terms}}}`"
    if finding.key == "unknown-key" and finding.remedy and finding.remedy.startswith("take it out"):
        option = next((path for path, at in places.keys.items() if at == finding.region), ())
        if option[-3:-2] == ("rules",):
            return f"if it is an option of the rule, it stands under `options`: {{options: {{{option[-1]}: …}}}}"
    return "write keys and values, such as `block: error`" if finding.key == "not-a-mapping" else finding.remedy


def _as_written(document: Document, name: str) -> object:
    """The text or the nodes that stand under a key of the file itself, whatever the schema makes of them."""
    pairs = document.root.value if document.root else []
    return next((value.value for key, value in pairs if key.value == name), None)


def _at(file: str, region: Region, message: str, mend: str | None = None) -> str:
    """A fault with its place, and with what to do about it in a line of its own unless the message has said so."""
    told = f"{file}:{region.line}:{region.column}: {message}"
    return told if mend is None or "did you mean" in message else f"{told}\n  mend  {mend}"


class _Reader:
    """Turns a document that keeps to the schema into Settings."""

    def __init__(self, file: str, places: Places, book: Rulebook) -> None:
        self.file, self.places, self.book = file, places, book

    def load_outside(self, data: Mapping[str, Any]) -> None:
        """Add the rules that the settings name and that are not the house's own; nothing is imported without."""
        if not data.get("rule-packages") and not data.get("local-rules"):
            return
        from lintarsia.settings.outside import Joining, Unloadable, local_file

        gathering = Joining(self.book)
        folder = os.path.dirname(os.path.abspath(self.file))
        for key in ("rule-packages", "local-rules"):
            for number, said in enumerate(data.get(key, ())):
                try:
                    if key == "rule-packages":
                        gathering.add_package(said)
                    else:
                        gathering.add_file(local_file(said, folder))
                except Unloadable as fault:
                    self.fail(self.places.value(key, number), str(fault))
        self.book = gathering.book()

    def settings(self, data: Mapping[str, Any], root: str) -> Settings:
        said: dict[str, Any] = {}
        folder = os.path.dirname(os.path.abspath(self.file))
        for key in ("charts", "exclude"):
            if key in data:
                said[key] = self.globs(data[key], (key,))
        if "block" in data:
            said["block"] = Level(data["block"])
        for key in ("baseline", "releases"):
            if key in data:
                said[key] = os.path.join(folder, data[key])
        if "max-size" in data:
            said["max_bytes"] = parse_size(str(data["max-size"]))
        if "max-stitches" in data:
            said["max_stitches"] = int(data["max-stitches"])
        if "limits" in data or "yarn" in data:
            said["reckoning"] = _reckoning(data.get("yarn", {}), data.get("limits", {}))
        if "answers" in data:
            said["answers"] = Answers(**data["answers"])
        if "terms" in data.get("words", {}):
            said["terms"] = data["words"]["terms"]
        if "language" in data:
            said["language"] = data["language"]
        if "designer" in data:
            said["designer"] = self.designer(data["designer"], folder)
        if "rules" in data:
            said["rules"] = self.rules(data["rules"], ("rules",))
        said["overrides"] = tuple(
            Override(
                self.globs(entry["paths"], ("overrides", i, "paths")),
                self.rules(entry["rules"], ("overrides", i, "rules")),
            )
            for i, entry in enumerate(data.get("overrides", ()))
        )
        return Settings(root=root, file=self.file, rulebook=self.book, **said)

    def globs(self, data: Sequence[str], path: tuple[str | int, ...]) -> tuple[str, ...]:
        for number, pattern in enumerate(data):
            try:
                check_glob(pattern)
            except BadGlob as fault:
                self.fail(self.places.value(*path, number), str(fault))
        return tuple(data)

    def rules(self, data: Mapping[str, Any], path: tuple[str | int, ...]) -> dict[str, RuleSetting]:
        settings = {}
        for name, stated in data.items():
            if name not in self.book:
                near = did_you_mean(name, self.book.names)
                message = f"there is no rule {name!r}{near}"
                self.fail(self.places.key(*path, name), message, "lintarsia explain lists the rules")
            setting = self.rule(name, stated, (*path, name))
            if setting.level is Level.OFF and not (info := self.book.info(name)).suppressible:
                why = "what cannot be read cannot be judged" if info.blinds else "what it finds has to be mended"
                message = f"{name} cannot be switched off: {why}"
                self.fail(self.places.value(*path, name), message, "take it out, or give it a level")
            settings[name] = setting
        return settings

    def rule(self, name: str, stated: str | Mapping[str, Any], path: tuple[str | int, ...]) -> RuleSetting:
        if isinstance(stated, str):
            return RuleSetting(Level(stated))
        level = Level(stated["level"]) if "level" in stated else None
        rule = self.book.load(name)
        kinds = option_types(rule.options)
        values: dict[str, object] = {}
        for option, raw in stated.get("options", {}).items():
            place = (*path, "options", option)
            if option not in kinds:
                known = f"; it has {', '.join(kinds)}" if kinds else "; it has none"
                message = f"{name} has no option {option!r}{did_you_mean(option, kinds) or known}"
                self.fail(self.places.key(*place), message)
            try:
                values[field_name(option)] = convert(_words(raw), kinds[option])
            except ValueError as failure:
                self.fail(self.places.value(*place), f"option {option} of {name}: {failure}")
        try:
            rule.options(**values)
        except Exception as failure:  # an option's own limits, told by its dataclass
            if not (rule.origin or isinstance(failure, ValueError)):
                raise
            self.fail(self.places.value(*path, "options"), f"{name}: {failure}")
        return RuleSetting(level, values)

    def designer(self, data: Mapping[str, Any], folder: str) -> Designer:
        said: dict[str, Any] = {key: str(value).strip() for key, value in data.items()}
        if "accent" in said:
            said["accent"] = said["accent"].lower()
        if "logo" not in said:
            return Designer(**said)
        line = self.places.value("designer", "logo").line
        return replace(Designer(**said), logo=os.path.join(folder, said["logo"]), logo_line=line)

    def fail(self, region: Region, message: str, mend: str | None = None) -> NoReturn:
        raise SettingsTrouble(_at(self.file, region, message, mend), self.file)


def _words(raw: Any) -> str | list[str]:
    """A value as it was written, so that the option's own type decides what it is."""
    return [written(item) for item in raw] if isinstance(raw, list) else written(raw)


_TIMES = ("cast-on", "bind-off", "rib", "seam")


def _reckoning(yarn: Mapping[str, Any], limits: Mapping[str, Any]) -> Reckoning:
    said: dict[str, Any] = {key.replace("-", "_"): float(yarn[key]) for key in _TIMES if key in yarn}
    if "tail" in yarn:
        said["tail_mm"] = parse_length(yarn["tail"]).mm
    if "allowance" in yarn:
        said["allowance"] = float(yarn["allowance"].rstrip("% ")) / 100
    if "holders" in yarn:
        said["holders"] = _holders(yarn["holders"])
    return replace(HOUSE_RECKONING, limits=_limits(limits), **said)


def _holders(data: Mapping[str, Any]) -> Holders:
    """The house's holders, with the lengths that are stated."""
    stated = {name.replace("-", " "): parse_length(length).metres for name, length in data.items()}
    return tuple((stated.get(name, most), name) for most, name in HOUSE_HOLDERS)


def _limits(data: Mapping[str, Any]) -> Limits:
    stated: dict[str, Any] = {
        key: parse_reach(value) if key in ("float", "carry") else value for key, value in data.items()
    }
    return Limits(**stated)
