"""`lintarsia completion SHELL`: a script for the shell to load."""

import click

from lintarsia.cli.exits import OK
from lintarsia.cli.output import write_stdout

WHERE = {
    "bash": 'eval "$(lintarsia completion bash)" in ~/.bashrc',
    "zsh": 'eval "$(lintarsia completion zsh)" in ~/.zshrc',
    "fish": "lintarsia completion fish | source in ~/.config/fish/config.fish",
}


@click.command(short_help="Complete commands in a shell.")
@click.argument("shell", type=click.Choice(list(WHERE)))
def command(shell: str) -> int:
    """Print what makes SHELL complete lintarsia's commands and options when the tab key is pressed.

    \b
    Put the line for your shell into its start-up file:
      eval "$(lintarsia completion bash)"
      eval "$(lintarsia completion zsh)"
      lintarsia completion fish | source

    Exit status: 0 printed, 2 there is no such shell.

    \b
    Examples:
      lintarsia completion bash
    """
    from click.shell_completion import get_completion_class

    from lintarsia.cli.main import group

    script = get_completion_class(shell)
    assert script is not None
    write_stdout(script(group, {}, "lintarsia", "_LINTARSIA_COMPLETE").source() + "\n")
    return OK
