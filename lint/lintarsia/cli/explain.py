"""`lintarsia explain`: the rules, or one of them, in full."""

import sys

import click

from lintarsia.cli.exits import OK
from lintarsia.cli.output import screen_of, write_stdout
from lintarsia.trouble import Trouble, did_you_mean


@click.command(short_help="Explain rules.")
@click.argument("rule", required=False)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--color", "colour", type=click.Choice(["auto", "always", "never"]), default="auto", show_default=True)
def command(rule: str | None, form: str, colour: str) -> int:
    """Say what RULE looks for, why it matters to the knitter, and what to do. Without RULE, list all rules."""
    from lintarsia.rulebook import house_rulebook

    book = house_rulebook()
    if rule is not None and rule not in book:
        near = did_you_mean(rule, book.names) or "; `lintarsia explain` lists them all"
        raise Trouble(f"there is no rule {rule!r}{near}")
    names = book.names if rule is None else (rule,)
    rules = [book.load(name) for name in names]
    if form == "json":
        from lintarsia.cli.rulewords import rules_json

        write_stdout(rules_json(rules))
    else:
        from lintarsia.cli.rulewords import list_rules, tell_rule

        screen = screen_of(sys.stdout, colour)
        write_stdout(list_rules(rules, screen) if rule is None else tell_rule(rules[0], screen))
    return OK
