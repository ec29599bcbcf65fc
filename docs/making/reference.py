"""What the commands and the rules say of themselves, as Markdown."""

from dataclasses import fields

import click

from lintarsia.cli.main import COMMANDS, group
from lintarsia.result import Level
from lintarsia.rules.rulebook import house_rulebook
from lintarsia.settings.options import written

SIGNS = {Level.ERROR: "■ error", Level.WARNING: "▲ warning", Level.NOTE: "● note", Level.OFF: "off"}


def help_of(words: str) -> str:
    """The help of every command, each under a heading of its own."""
    top = click.Context(group, info_name="lintarsia", max_content_width=80, terminal_width=80)
    parts = []
    for name in COMMANDS:
        command = group.get_command(top, name)
        assert command is not None
        inner = click.Context(command, top, name, max_content_width=80, terminal_width=80)
        parts.append(f"## `lintarsia {name}` {{ #{name} }}\n\n```text\n{command.get_help(inner)}\n```\n")
    return "\n".join(parts)


def levels_table(words: str) -> str:
    """All rules with their levels, each with a link to its page."""
    book = house_rulebook()
    lines = [
        f"| [`{n}`](examples/rules/{n}.md) | {SIGNS[book.info(n).level]} | {book.info(n).summary} |" for n in book.names
    ]
    return "| rule | level | what it finds |\n|---|---|---|\n" + "\n".join(lines) + "\n"


def rule_options(words: str) -> str:
    """The options of all rules that have any."""
    book = house_rulebook()
    lines = []
    for name in book.names:
        rule = book.load(name)
        defaults = rule.options()
        for field in fields(rule.options):
            option, value = field.name.replace("_", "-"), written(getattr(defaults, field.name))
            told = str(field.metadata.get("help", "")).replace("|", "\\|")
            lines.append(f"| [`{name}`](examples/rules/{name}.md) | `{option}` | `{value}` | {told} |")
    return "| rule | option | default | what it means |\n|---|---|---|---|\n" + "\n".join(lines) + "\n"
