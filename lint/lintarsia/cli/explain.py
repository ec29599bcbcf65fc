"""`lintarsia explain`: the rules, or one of them, in full."""

import os
import sys
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import OK
from lintarsia.cli.output import screen_of, write_stdout
from lintarsia.cli.settings_option import allow_outside_rules, named_settings
from lintarsia.ground.trouble import Trouble
from lintarsia.reporting.screen import Screen
from lintarsia.telling.guessing import did_you_mean

if TYPE_CHECKING:
    from lintarsia.settings import Settings


def _complete(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[str]:
    from lintarsia.rules.rulebook import house_rulebook  # pressing the tabulator runs no code of others

    return [name for name in house_rulebook().names if name.startswith(incomplete)]


@click.command(short_help="Explain rules.")
@click.argument("rule", required=False, shell_complete=_complete)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--settings", "settings_file", type=click.Path(), help="Tell of the rules that this settings file adds.")
@allow_outside_rules
@click.option("--color", "colour", type=click.Choice(["auto", "always", "never"]), default="auto", show_default=True)
def command(rule: str | None, form: str, settings_file: str | None, colour: str) -> int:
    """Say what RULE looks for, why it matters to the knitter, and what to do. Without RULE, list all rules.

    RULE may be a part of a name: `float` lists the rules on floats. Rules from elsewhere that the settings of the
    current folder name are told of too. Exit status: 0 told, 2 there is no such rule.

    \b
    Examples:
      lintarsia explain
      lintarsia explain grid/stitch-count
      lintarsia explain float
    """
    from lintarsia.rules.rulebook import house_rulebook

    book = house_rulebook()
    if rule is None or rule not in book:  # rules from elsewhere are loaded only where one of them may be meant
        book = _settings(settings_file).rulebook
    names = book.names if rule is None else rules_meant(rule, book.names)
    if not names:
        near = did_you_mean(rule or "", book.names) or "; `lintarsia explain` lists them all"
        raise Trouble(f"there is no rule {rule!r}{near}")
    rules = [book.load(name) for name in names]
    if form == "json":
        from lintarsia.cli.rulewords import rules_json

        write_stdout(rules_json(rules))
    else:
        from lintarsia.cli.rulewords import list_rules, tell_rule

        screen = screen_of(sys.stdout, colour)
        if rule is None or len(names) > 1:
            write_stdout(list_rules(rules, screen))
        else:
            write_stdout(tell_rule(rules[0], screen, _example(names[0], rules[0].info.keys, screen)))
    return OK


def rules_meant(word: str, names: Sequence[str]) -> tuple[str, ...]:
    """The rules a word may mean: the one of that name, else a group, else a name without its group, else a part."""
    said = word.casefold().strip().rstrip("/")
    ways: tuple[Callable[[str], bool], ...] = (
        lambda name: name == said,
        lambda name: name.partition("/")[0] == said,
        lambda name: name.partition("/")[2] == said,
        lambda name: len(said) > 2 and said in name,
    )
    found = (tuple(filter(way, names)) for way in ways)
    return next(filter(None, found), ())


def _settings(file: str | None) -> "Settings":
    from lintarsia.settings import find_settings

    return named_settings(file) or find_settings(os.curdir)


def _example(rule: str, keys: Iterable[str], screen: Screen) -> str:
    """What the rule says of a case that it finds fault with, of its first key where there is one: name, then report."""
    from dataclasses import replace
    from textwrap import wrap

    from lintarsia.engine import check_chart
    from lintarsia.ground.resources import resource
    from lintarsia.reporting.text import entries
    from lintarsia.result import Report
    from lintarsia.rules.shared.cases import read_case
    from lintarsia.settings import Settings

    narrow = replace(screen, width=screen.width - 2)
    cases = [read_case(file) for file in sorted((resource("cases") / rule).glob("*.yaml"))]
    cases = [case for case in cases if not case.clean and not case.settings]
    for case in sorted(cases, key=lambda case: list(keys).index(case.expect[0]["key"])):
        if not case.kind.whole:  # its charts lie in no folder from which it could be checked
            lines = [line for told in case.expect for line in wrap(told["message"], narrow.width - 2)]
            return f"{case.name}\n\n" + "".join(f"  {line}\n" for line in lines)
        name = case.file.stem + case.kind.suffix
        found, picture = check_chart(name, case.chart.encode(), Settings(root="/"))
        results = tuple(result for result in found if result.rule == rule)
        report = Report(1, results, {name: picture} if picture else {})
        return f"{case.name}\n\n{entries(report, narrow)}"
    return ""
