"""A settings file to Settings. Every slip is a Trouble with its place; unknown names get a guess."""

import os
import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from lintarsia.chart import HOUSE_LIMITS
from lintarsia.measure import parse_length, parse_reach
from lintarsia.result import Level
from lintarsia.rulebook import UNSUPPRESSIBLE, Rulebook, house_rulebook
from lintarsia.settings.model import Override, RuleSetting, Settings
from lintarsia.settings.options import convert, field_name, number, option_types, whole
from lintarsia.settings.source import Source
from lintarsia.trouble import did_you_mean

KEYS = ("charts", "exclude", "rules", "overrides", "block", "limits", "yarn", "max-size")
LIMIT_KEYS = ("supplies", "float", "carry", "idle", "strand")
RULE_LEVELS = ("error", "warning", "note", "off")
BLOCK_LEVELS = ("error", "warning", "note", "off")

_SIZE = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(B|kB|KiB|MB|MiB)?", re.ASCII)
_BYTES = {None: 1, "B": 1, "kB": 1000, "KiB": 1024, "MB": 10**6, "MiB": 2**20}
_T = TypeVar("_T")


def read_settings(file: str, root: str | None = None, rulebook: Rulebook | None = None) -> Settings:
    """The settings that `file` states. `root` is what its patterns start from: its own folder unless given.

    Raises Trouble, with file, line and column, for whatever is not as schema/settings.schema.json describes it.
    """
    book = rulebook or house_rulebook()
    source = Source(file)
    folder = os.path.dirname(os.path.abspath(file)) if root is None else root
    settings = Settings(root=folder, file=file, rulebook=book)
    for key, _, node in source.items(source.root(), "the settings file", KEYS):
        settings = replace(settings, **_READERS[key](source, node, book))
    return settings


def parse_size(text: str) -> int:
    """`"4 MiB"` (or kB, KiB, MB, or a bare number of bytes) to bytes. Raises ValueError for anything else."""
    match = _SIZE.fullmatch(text)
    if not match or float(match[1]) == 0:
        raise ValueError(f"{text!r} is not a size; write a number and kB, KiB, MB or MiB")
    return int(float(match[1]) * _BYTES[match[2]])


def _scalar(source: Source, node: Any, what: str, parse: Callable[[str], _T]) -> _T:
    raw = source.text(node, what)
    try:
        return parse(raw)
    except ValueError as failure:
        source.fail(node, f"{what}: {failure}")


def _level(source: Source, node: Any, what: str, allowed: tuple[str, ...]) -> Level:
    raw = source.text(node, what)
    if raw not in allowed:
        source.fail(node, f"{what} must be one of {', '.join(allowed)}, not {raw!r}{did_you_mean(raw, allowed)}")
    return Level(raw)


def _limits(source: Source, node: Any, _: Rulebook) -> dict[str, object]:
    said: dict[str, Any] = {}
    for key, _key_node, value in source.items(node, "limits", LIMIT_KEYS):
        said[key] = _scalar(source, value, f"limits.{key}", parse_reach if key == "float" else whole)
    return {"limits": replace(HOUSE_LIMITS, **said)}


def _yarn(source: Source, node: Any, _: Rulebook) -> dict[str, object]:
    said: dict[str, object] = {}
    for key, _key_node, value in source.items(node, "yarn", ("tail", "allowance")):
        if key == "tail":
            said["tail_mm"] = _scalar(source, value, "yarn.tail", parse_length).mm
        else:
            said["allowance"] = _scalar(source, value, "yarn.allowance", _share)
    return said


def _share(raw: str) -> float:
    value = number(raw[:-1].rstrip()) / 100 if raw.endswith("%") else number(raw)
    if not 0 <= value <= 1:
        raise ValueError(f"{raw!r} is not a share between 0 and 1 (or 0% and 100%)")
    return value


def _rules(source: Source, node: Any, book: Rulebook) -> dict[str, object]:
    return {"rules": _rule_settings(source, node, book)}


def _rule_settings(source: Source, node: Any, book: Rulebook) -> Mapping[str, RuleSetting]:
    settings: dict[str, RuleSetting] = {}
    for name, key_node, value in source.items(node, "rules"):
        if name not in book:
            source.fail(key_node, f"there is no rule {name!r}{did_you_mean(name, book.names)}")
        settings[name] = _rule_setting(source, name, value, book)
        if settings[name].level is Level.OFF and name in UNSUPPRESSIBLE:
            source.fail(value, f"{name} cannot be switched off: what cannot be read cannot be judged")
    return settings


def _rule_setting(source: Source, name: str, node: Any, book: Rulebook) -> RuleSetting:
    if not hasattr(node, "value") or isinstance(node.value, str):
        return RuleSetting(_level(source, node, f"the level of {name}", RULE_LEVELS))
    rule = book.load(name)
    kinds = option_types(rule.options)
    level: Level | None = None
    values: dict[str, object] = {}
    for key, _, value in source.items(node, name, ("level", *kinds)):
        if key == "level":
            level = _level(source, value, f"the level of {name}", RULE_LEVELS)
            continue
        raw = source.text(value, key) if isinstance(value.value, str) else list(source.texts(value, key))
        try:
            values[field_name(key)] = convert(raw, kinds[key])
        except ValueError as failure:
            source.fail(value, f"option {key} of {name}: {failure}")
    try:
        rule.options(**values)
    except ValueError as failure:  # an option's own limits, told by its dataclass
        source.fail(node, f"{name}: {failure}")
    return RuleSetting(level, values)


def _overrides(source: Source, node: Any, book: Rulebook) -> dict[str, object]:
    overrides = []
    for entry in source.nodes(node, "overrides"):
        parts = {key: value for key, _, value in source.items(entry, "an override", ("paths", "rules"))}
        for key in ("paths", "rules"):
            if key not in parts:
                source.fail(entry, f"an override needs {key!r}")
        paths = source.texts(parts["paths"], "paths")
        if not paths:
            source.fail(parts["paths"], "an override needs at least one path pattern")
        overrides.append(Override(paths, _rule_settings(source, parts["rules"], book)))
    return {"overrides": tuple(overrides)}


_READERS: Mapping[str, Callable[[Source, Any, Rulebook], dict[str, Any]]] = {
    "charts": lambda source, node, _: {"charts": source.texts(node, "charts")},
    "exclude": lambda source, node, _: {"exclude": source.texts(node, "exclude")},
    "rules": _rules,
    "overrides": _overrides,
    "block": lambda source, node, _: {"block": _level(source, node, "block", BLOCK_LEVELS)},
    "limits": _limits,
    "yarn": _yarn,
    "max-size": lambda source, node, _: {"max_bytes": _scalar(source, node, "max-size", parse_size)},
}
