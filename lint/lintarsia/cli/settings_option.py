"""What `--settings FILE` names, for every command that takes it."""

import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lintarsia.settings import Settings


def named_settings(file: str | None) -> "Settings | None":
    """The settings named on the command line; their patterns start from the current folder. None where none are named.

    Raises Trouble for a file that cannot be read or is not in order.
    """
    if file is None:
        return None
    from lintarsia.settings import read_settings

    return read_settings(file, root=os.getcwd())
