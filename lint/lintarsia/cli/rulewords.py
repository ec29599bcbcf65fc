"""A rule in words for a terminal, and as JSON, from what it says of itself."""

import json
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import MISSING, fields
from enum import Enum
from typing import Any, Literal, get_args, get_origin

from lintarsia.reporting.paint import level_mark, plain_where_needed, quiet, strong
from lintarsia.reporting.screen import Screen
from lintarsia.result import Level
from lintarsia.rules.base import Rule
from lintarsia.settings.options import option_types, written

INDENT = "  "
LEVEL_WIDTH = 11  # shape, word, two spaces


def list_rules(rules: Sequence[Rule], screen: Screen) -> str:
    """All rules by group, one or two lines each."""
    lines: list[str] = []
    group = ""
    for rule in rules:
        if rule.info.group != group:
            group = rule.info.group
            lines += ["", strong(group, screen)]
        lines.append(f"{INDENT}{_level(rule.info.level, screen)}{rule.info.name}")
        lines += _wrap(rule.info.summary, screen, " " * (len(INDENT) + LEVEL_WIDTH))
    lines += ["", quiet("`lintarsia explain RULE` says why, and what to do about it.", screen)]
    return _text(lines[1:], screen)


def tell_rule(rule: Rule, screen: Screen, example: str = "") -> str:
    """One rule in full: summary, why, remedy, the ways it can fail, an example, options, sources, settings."""
    info = rule.info
    lines = [f"{_level(info.level, screen)}{strong(info.name, screen)}", *_wrap(info.summary, screen, INDENT)]
    for title, text in (("Why it matters", info.why), ("What to do", info.remedy)):
        lines += ["", strong(title, screen), *_wrap(text, screen, INDENT)]
    if info.keys:
        lines += ["", strong("What it reports", screen)]
        for key, phrase in info.keys.items():
            lines += _wrap(f"{key}: {phrase}", screen, INDENT, hanging=INDENT * 2)
    options = list(_options(rule))
    if options:
        lines += ["", strong("Options", screen)]
        for option in options:
            lines.append(f"{INDENT}{option['name']}: {option['default']}  {quiet(option['type'], screen)}")
            lines += _wrap(option["help"], screen, INDENT * 2)
    if example:
        lines += ["", strong("Example", screen), *_example(example, screen)]
    if rule.origin:
        lines += ["", strong("Where it comes from", screen), *_wrap(f"A rule {rule.origin}.", screen, INDENT)]
    lines += ["", strong("Sources", screen)]
    for source in info.sources:
        lines += _wrap(source, screen, INDENT)
    if info.suppressible:
        lines += ["", strong("In lintarsia.yaml", screen), *_settings_lines(info.name, options)]
    return _text(lines, screen)


def _example(example: str, screen: Screen) -> list[str]:
    name, _, report = example.rstrip().partition("\n")
    return [*_wrap(name, screen, INDENT), *(INDENT + line for line in report.split("\n"))]


def rules_json(rules: Iterable[Rule]) -> str:
    """The same as data, `lintarsia/rules/1`."""
    told = [
        {
            "rule": rule.info.name,
            "level": str(rule.info.level),
            "summary": rule.info.summary,
            "why": rule.info.why,
            "remedy": rule.info.remedy,
            "keys": dict(rule.info.keys),
            "options": list(_options(rule)),
            "sources": list(rule.info.sources),
            **({"origin": rule.origin} if rule.origin else {}),
        }
        for rule in rules
    ]
    return json.dumps({"schema": "lintarsia/rules/1", "rules": told}, ensure_ascii=False, indent=2) + "\n"


def _options(rule: Rule) -> Iterator[dict[str, str]]:
    kinds = option_types(rule.options)
    defaults = rule.options()
    for field in fields(rule.options):
        name = field.name.replace("_", "-")
        assert field.default is not MISSING or field.default_factory is not MISSING
        yield {
            "name": name,
            "default": written(getattr(defaults, field.name)),
            "type": _kind(kinds[name]),
            "help": str(field.metadata.get("help", "")),
        }


def _level(level: Level, screen: Screen) -> str:
    """The level in a column of its own; rules that have to be switched on say so."""
    if level is Level.OFF:
        return "- off".ljust(LEVEL_WIDTH)
    return level_mark(level, screen) + " " * (LEVEL_WIDTH - len(f"■ {level}"))


_KINDS = {
    "bool": "true or false",
    "int": "a whole number",
    "float": "a number",
    "str": "text",
    "Length": "a length",
    "Mass": "a mass",
    "StitchCount": "a count of stitches",
    "NoneType": "null",
}


def _kind(kind: Any) -> str:
    """An option's type in words: `a length or a count of stitches`, `error, warning or note`, `a list of text`."""
    inner = get_args(kind)
    if get_origin(kind) in (tuple, frozenset):
        return f"a list of {_kind(inner[0])}"
    if get_origin(kind) is Literal:
        return " or ".join(map(str, inner))
    if inner:
        return " or ".join(map(_kind, inner))
    if issubclass(kind, Enum):
        return " or ".join(str(member.value) for member in kind)
    return _KINDS[kind.__name__]


def _settings_lines(name: str, options: Sequence[dict[str, str]]) -> list[str]:
    if not options:
        return [f"{INDENT}rules: {{{name}: off}}"]
    return [
        f"{INDENT}rules:",
        f"{INDENT}  {name}: {{level: note, options: {{{options[0]['name']}: {options[0]['default']}}}}}",
    ]


def _wrap(text: str, screen: Screen, indent: str, hanging: str | None = None) -> list[str]:
    return textwrap.wrap(
        " ".join(text.split()),
        screen.width,
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_on_hyphens=False,
        break_long_words=False,
    )


def _text(lines: Iterable[str], screen: Screen) -> str:
    return plain_where_needed("".join(line.rstrip() + "\n" for line in lines), screen)
