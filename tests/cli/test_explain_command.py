"""`lintarsia explain` and the small commands beside it."""

import json
import subprocess
import sys

import pytest

from lintarsia.cli.main import COMMANDS, group, main
from lintarsia.cli.rulewords import list_rules, rules_json, tell_rule
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.rules.rulebook import Rulebook, house_rulebook


def test_the_list_names_every_rule(capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain"]) == 0
    out = capfd.readouterr().out
    for name in house_rulebook().names:
        assert f" {name}\n" in out


@pytest.mark.parametrize("name", house_rulebook().names)
@pytest.mark.parametrize("options", [[], ["--color", "always"]])
def test_every_rule_is_told_within_80_columns(name: str, options: list[str], capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", name, *options]) == 0
    out = capfd.readouterr().out
    for title in ("Why it matters", "What to do", "What it reports", "Sources"):
        assert title in out
    if not options:
        assert [line for line in out.splitlines() if len(line) > 80] == []


def test_a_rule_with_options_whole(toy_book: Rulebook) -> None:
    told = tell_rule(toy_book.load("toy/letters"), PLAIN)
    assert told == (
        """\
▲ warning  toy/letters
  summary of toy/letters

Why it matters
  why

What to do
  remedy of toy/letters

What it reports
  letter: a letter

Options
  symbol: W  text
  rows: true  true or false
  most: 100  a whole number
  reach: 2.5 cm  a length or a count of stitches
  names: []  a list of text

Sources
  common practice

In lintarsia.yaml
  rules:
    toy/letters: {level: note, options: {symbol: W}}
"""
    )


def test_a_rule_that_is_off_says_so(toy_book: Rulebook) -> None:
    assert "  - off      toy/fails\n" in list_rules([toy_book.load("toy/fails")], PLAIN)


def test_as_data(toy_book: Rulebook) -> None:
    document = json.loads(rules_json([toy_book.load("toy/letters")]))
    assert document["schema"] == "lintarsia/rules/1"
    (rule,) = document["rules"]
    assert (rule["rule"], rule["level"], rule["keys"]) == ("toy/letters", "warning", {"letter": "a letter"})
    assert rule["options"][1] == {"name": "rows", "default": "true", "type": "true or false", "help": ""}


def test_ascii_has_no_shapes(toy_book: Rulebook) -> None:
    assert tell_rule(toy_book.load("toy/letters"), Screen(unicode=False)).isascii()


def test_rule_names_are_completed() -> None:
    from lintarsia.cli.explain import command

    names = [item.value for item in command.params[0].shell_complete(command.make_context("explain", []), "grid/st")]
    assert names == ["grid/stitch-count"]


@pytest.mark.parametrize(("shell", "told"), [("bash", "complete "), ("zsh", "#compdef"), ("fish", "complete ")])
def test_completion_scripts(shell: str, told: str, capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    out = capfd.readouterr().out
    assert told in out
    assert "_LINTARSIA_COMPLETE" in out


def test_completion_answers_the_shell() -> None:
    """As bash would ask: the words so far, and which of them is being typed."""
    import os

    asked = {"_LINTARSIA_COMPLETE": "bash_complete", "COMP_WORDS": "lintarsia ex", "COMP_CWORD": "1"}
    code = "from lintarsia.cli.main import main; main()"
    done = subprocess.run([sys.executable, "-c", code], env={**os.environ, **asked}, capture_output=True, text=True)
    assert done.stdout == "plain,explain\n"


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_is_there_and_has_its_help(name: str, capfd: pytest.CaptureFixture[str]) -> None:
    assert group.get_command(None, name) is not None  # type: ignore[arg-type]
    assert main([name, "--help"]) == 0
    assert capfd.readouterr().out.startswith(f"Usage: lintarsia {name} ")
