"""Where a pattern's charts lie. A pattern may come from anywhere, so its paths may not lead out of the repository."""

import os

MARKS = (".git", "lintarsia.yaml")


class Outside(ValueError):  # noqa: N818 - what a file says is not a programming error
    """A path that leaves the repository's folder."""


def repository(file: str) -> str:
    """The folder that a pattern's paths must stay in: the nearest above it with a repository or a settings file in it.

    The pattern's own folder where there is none.
    """
    own = os.path.dirname(os.path.abspath(file))
    for mark in MARKS:
        folder = own
        while True:
            if os.path.lexists(os.path.join(folder, mark)):
                return folder
            above = os.path.dirname(folder)
            if above == folder:
                break
            folder = above
    return own


def chart_path(file: str, said: str, root: str) -> str:
    """The path of a chart as one would name it beside `file`. Raises Outside for one that is absolute or leaves `root`.

    Links are followed first: a link inside the repository that leads out of it is outside.
    """
    if os.path.isabs(said) or said.startswith(("~", "/")) or "\\" in said or ":" in said[:2]:
        raise Outside(f"{said!r} is not a path from the pattern's own folder")
    path = os.path.normpath(os.path.join(os.path.dirname(file), said))
    real, home = os.path.realpath(os.path.abspath(path)), os.path.realpath(root)
    if real != home and not real.startswith(home.rstrip(os.sep) + os.sep):
        raise Outside(f"{said!r} leads out of the repository")
    return path
