"""Where a pattern's charts lie. A pattern may come from anywhere, so its paths may not lead out of the repository."""

import os

from lintarsia.ground.bounds import leads_out


class Outside(ValueError):  # noqa: N818 - what a file says is not a programming error
    """A path that leaves the repository's folder, or that no file can have."""


def chart_path(file: str, said: str, root: str) -> str:
    """The path of a chart as one would name it beside `file`. Raises Outside for one that is absolute or leaves `root`.

    Links are followed first: a link inside the repository that leads out of it is outside.
    """
    if os.path.isabs(said) or said.startswith(("~", "/")) or "\\" in said or ":" in said[:2]:
        raise Outside(f"{said!r} is not a path from the pattern's own folder")
    path = os.path.normpath(os.path.join(os.path.dirname(file), said))
    try:
        outside = leads_out(path, root)
    except ValueError:  # NUL, or half a character
        raise Outside(f"{said!r} is no name that a file can have") from None
    if outside:
        raise Outside(f"{said!r} leads out of the repository")
    return path
