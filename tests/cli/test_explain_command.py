"""`lintarsia explain` and the small commands beside it."""

import json
import subprocess
import sys
from typing import Literal

import pytest

from folding import each
from lintarsia.chart.measure import Length
from lintarsia.cli.main import COMMANDS, group, main
from lintarsia.cli.rulewords import _kind, list_rules, rules_json, tell_rule
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.result import Level
from lintarsia.rules.rulebook import Rulebook, house_rulebook


def test_the_list_names_every_rule(capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain"]) == 0
    out = capfd.readouterr().out
    for name in house_rulebook().names:
        assert f" {name}\n" in out


@pytest.mark.parametrize("options", [[], ["--color", "always"]])
@each("name", house_rulebook().names)
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


LIST = """\
float
  ● note     float/stacked
             floats of two rows, one above the other, would be caught between
             the same two stitches
  ▲ warning  float/third-colour
             a stranded row works with more than two colours
  ▲ warning  float/too-long
             a float is longer than the limit

`lintarsia explain RULE` says why, and what to do about it.
"""
STITCH_COUNT = """\
■ error    grid/stitch-count
  a row has more or fewer stitches than the row below it leaves

Why it matters
  The knitter works each row into the stitches of the one below. A row with one
  stitch too many cannot be finished, a row with one too few leaves a stitch
  over, and every row above is off by one against the picture.

What to do
  put the missing stitch in or take the extra one out; if the count is meant to
  change, say so in `shaping`

What it reports
  row-too-short: a row has fewer stitches than the row below leaves
  row-too-long: a row has more stitches than the row below leaves
  uneven-row: a row has the right stitches, but its line is longer or shorter
    than the line below

Example
  one row has lost a stitch and the next is whole again

  a-row-lost-a-stitch.chart.yaml:9:3
  ■ error  row 2 (WS), stitches 1–3                            grid/stitch-count
    row 2 has 3 stitches; row 1 has 4 and no shaping is declared

        3 BBBB
   ▸    2  BWB
           ^^^
        1 BBBB

    mend  put the missing stitch in or take the extra one out; if the count is
          meant to change, say so in `shaping`

Sources
  common practice: a chart's row has as many squares as there are stitches on
  the needle after it

In lintarsia.yaml
  rules: {grid/stitch-count: off}
"""


@pytest.mark.parametrize(("word", "told"), [("float", LIST), ("stitch-count", STITCH_COUNT)])
def test_what_is_told_whole(
    word: str, told: str, capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["explain", word]) == 0
    assert capfd.readouterr().out == told


def test_a_rule_on_patterns_has_its_example_in_words(capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "seam/continuity"]) == 0
    example = (
        "Example\n  the back's stripe begins a row later\n\n    front left to back right: row 3: Bone meets Dusk blue"
    )
    assert f"\n\n{example}\n\nSources\n" in capfd.readouterr().out


def test_an_option_stands_with_its_default_its_kind_and_what_it_does(capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "supply/row-limit"]) == 0
    out = capfd.readouterr().out
    option = (
        "Options\n  counted: worked  worked or hanging\n    `worked`: the supplies that a row works with; `hanging`:"
    )
    assert f"\n\n{option}" in out
    assert out.endswith(
        "\nIn lintarsia.yaml\n  rules:\n    supply/row-limit: {level: note, options: {counted: worked}}\n"
    )


@each("name", house_rulebook().names)
def test_an_example_shows_its_rule_and_no_other(name: str, capfd: pytest.CaptureFixture[str]) -> None:
    """A case is often found fault with by other rules as well, which would only puzzle here."""
    assert main(["explain", name]) == 0
    _, _, rest = capfd.readouterr().out.partition("\nExample\n")
    example = rest.partition("\nSources\n")[0]
    others = [other for other in house_rulebook().names if other != name and f" {other}\n" in example]
    assert others == []
    assert f" {name}\n" in example or "chart.yaml:" not in example


def test_a_house_rule_as_data_says_nothing_of_where_it_comes_from(capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "size/off-centre", "--format", "json"]) == 0
    (rule,) = json.loads(capfd.readouterr().out)["rules"]
    assert list(rule) == ["rule", "level", "summary", "why", "remedy", "keys", "options", "sources"]
    assert (rule["level"], rule["options"], rule["sources"]) == ("note", [], ["arithmetic"])


def test_kinds_of_options_in_words(capfd: pytest.CaptureFixture[str]) -> None:
    wanted = {
        "area/single-stitch": "  corners: true  true or false\n",
        "colour/look-alike": "  colour-blind: 7.0  a number\n",
        "ends/nowhere-to-hide": "  room: 2 cm  a length\n",
        "float/third-colour": "  most: 2  a whole number\n",
    }
    for name, line in wanted.items():
        assert main(["explain", name]) == 0
        assert line in capfd.readouterr().out


def test_the_keys_of_a_rule_hang_under_their_names(toy_book: Rulebook) -> None:
    """Of fourteen columns, say: what goes on is set in by two more than the key."""
    told = tell_rule(toy_book.load("toy/letters"), Screen(width=14))
    assert "What it reports\n  letter: a\n    letter\n" in told


def test_two_rules_are_a_list_already(capfd: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "repeat"]) == 0
    out = capfd.readouterr().out
    assert [line.split()[-1] for line in out.splitlines() if " repeat/" in line] == [
        "repeat/broken-copy",
        "repeat/odd-rows",
    ]
    assert "Why it matters" not in out


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (Literal["left", "right"], "left or right"),
        (tuple[int, ...], "a list of a whole number"),
        (frozenset[str], "a list of text"),
        (Level, "error or warning or note or off"),
        (Length | None, "a length or null"),
        (Literal[2, 3], "2 or 3"),
    ],
)
def test_a_kind_of_option_that_another_s_rule_may_have(kind: object, words: str) -> None:
    assert _kind(kind) == words


def test_an_example_of_a_pattern_with_a_long_message_goes_on_in_lines(capfd: pytest.CaptureFixture[str]) -> None:
    """Every line of every example on patterns is set in by four, and holds no more than the screen does."""
    for name in ("size/measurement", "size/repeat-fit", "pieces/pair", "key/disagrees", "yarn/too-little"):
        assert main(["explain", name]) == 0
        example = capfd.readouterr().out.partition("\nExample\n")[2].partition("\n\nSources")[0]
        title, _, told = example.partition("\n\n")
        assert title.startswith("  ")
        assert all(line.startswith("    ") and len(line) <= 80 for line in told.splitlines())
