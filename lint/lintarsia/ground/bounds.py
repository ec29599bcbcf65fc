"""How far a name may lead. Charts and patterns come from anywhere, and none may show or change what lies elsewhere.

The bounds are the repository: the nearest folder above with `.git` in it, or else with settings. Where there is neither
they are the file's own folder, whatever was named on the command line: what a download of a few charts may reach must
not hang on the folder that somebody happens to stand in. A settings file in a folder above widens them.
"""

import os
import stat

MARKS = (".git", "lintarsia.yaml")


def repository(file: str) -> str:
    """The folder that the names in `file`, and its own, must stay in."""
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


def leads_out(path: str, root: str | None = None) -> bool:
    """Whether links on the way to a file lead out of its repository (`root`, where that is known), or into `.git`.

    There lie the passwords of whoever fetches. Raises ValueError for what can be no file's name.
    """
    full = os.path.abspath(path)
    if root is None and _is_straight(full):
        return False
    real = os.path.realpath(full)
    if root is None:
        root = repository(path)
    home = os.path.realpath(root)
    if real == home:
        return False
    inside = home.rstrip(os.sep) + os.sep
    return not real.startswith(inside) or ".git" in real[len(inside) :].split(os.sep)


def _is_straight(full: str) -> bool:
    """Whether nothing on the way to a file is a link: by far the usual file, and told in half the time that it takes
    to follow the way."""
    if os.name == "nt":  # there are other links there
        return os.path.realpath(full) == full
    at = full
    try:
        while at and not stat.S_ISLNK(os.lstat(at).st_mode):
            at = at.rpartition(os.sep)[0]
    except OSError:  # a part that is not there, or may not be looked at
        return os.path.realpath(full) == full
    return not at
