"""What every command says of itself: examples that can be typed, every exit status, and nothing too wide."""

import shlex

import click
import pytest

from lintarsia.cli.exits import CANNOT, OK
from lintarsia.cli.main import COMMANDS, group, main


def help_of(name: str, width: int) -> str:
    top = click.Context(group, info_name="lintarsia", **group.context_settings)  # click keeps what it is first asked
    command = group.get_command(top, name)
    assert command is not None
    text: str = command.get_help(click.Context(command, top, name, max_content_width=width, terminal_width=width))
    return text


def examples(name: str) -> list[str]:
    after = help_of(name, 80).split("Examples:\n")[1].split("\n\n")[0]
    return [line.strip() for line in after.splitlines()]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_example_can_be_typed(name: str, tmp_path: object) -> None:
    """Each line is given to the command's own parser, which knows every option and refuses what it does not know."""
    for line in examples(name):
        program, command, *arguments = shlex.split(line)
        assert (program, command) == ("lintarsia", name)
        told = group.get_command(click.Context(group), name)
        assert told is not None
        told.make_context(name, arguments)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_exit_status_is_told(name: str) -> None:
    text = " ".join(help_of(name, 80).split())
    assert "Exit status: 0 " in text
    assert ", 2 " in text


@pytest.mark.parametrize("width", [60, 79])
@pytest.mark.parametrize("name", COMMANDS)
def test_no_line_is_wider_than_the_screen(name: str, width: int) -> None:
    assert [line for line in help_of(name, width).splitlines() if len(line) > width] == []


def test_help_is_a_word_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["help"]) == OK
    whole = capsys.readouterr().out
    assert main(["--help"]) == OK
    assert capsys.readouterr().out == whole
    assert main(["help", "plan"]) == OK
    assert "lintarsia plan [OPTIONS] CHART" in capsys.readouterr().out
    assert main(["help", "plam"]) == CANNOT
    assert "there is no command 'plam'; did you mean 'plan'?" in capsys.readouterr().err


def test_a_path_instead_of_a_command_is_answered_with_the_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["."]) == CANNOT
    assert "there is no command '.'; to check it: lintarsia check ." in capsys.readouterr().err
