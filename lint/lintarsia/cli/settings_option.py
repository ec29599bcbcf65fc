"""What `--settings FILE` names, and whether settings may bring code of their own; for every command that reads them."""

import os
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from lintarsia.settings import Settings


def named_settings(file: str | None) -> "Settings | None":
    """The settings named on the command line; their patterns start from the current folder. None where none are named.

    Raises Trouble for a file that cannot be read or is not in order.
    """
    if file is None:
        return None
    from lintarsia.settings.reader import read_settings

    return read_settings(file, root=os.getcwd())


def _allow(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value:
        from lintarsia.settings.trust import allowed

        ctx.with_resource(allowed())


allow_outside_rules = click.option(
    "--allow-outside-rules",
    is_flag=True,
    expose_value=False,
    callback=_allow,
    help="Run rules from elsewhere that the settings name, for pull requests in CI and in editors too.",
)


def distrust_settings() -> None:
    """What the running command is given was handed over by an editor or a pipe."""
    from lintarsia.settings.trust import handed_over

    click.get_current_context().with_resource(handed_over())
