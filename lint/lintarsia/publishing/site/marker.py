"""The file in a site's folder that lists what the last build made there: that much is ours, and nothing else."""

import os
import re
import stat
from collections.abc import Iterable

MARKER = ".lintarsia-site"
HEAD = (
    "This folder holds a site that `lintarsia site` made. It replaces and removes the files that are listed here, "
    "and keeps all others.\n"
)
PUBLIC_HEAD = (
    "This folder holds a site that `lintarsia site --public` made, for everybody. It replaces and removes the "
    "files that are listed here, and keeps all others.\n"
)
# What builds make, and have made. A line with any other name was not written by a build, and is no leave to remove.
_NAME = re.compile(r"(?:[\w-][\w.-]*/)*[\w-][\w.-]*\.(?:html|svg|png|js|css|json)", re.ASCII)
_LONGEST = 100_000_000  # bytes


def could_be_made(name: str) -> bool:
    """Whether a file of the site could have this name: below the folder, nothing hidden, nothing that is not ours."""
    return _NAME.fullmatch(name) is not None


def marker_text(names: Iterable[str], *, public: bool = False) -> str:
    """The marker of a site that consists of the files `names`; it says which of the two faces that is."""
    return (PUBLIC_HEAD if public else HEAD) + "".join(f"{name}\n" for name in sorted(names))


def read_marker(folder: str) -> frozenset[str] | None:
    """The files that the last build made in `folder`; None for a folder without a marker, or with one that has no
    list: those of the first releases had none. Raises OSError for a marker that cannot be read."""
    path = os.path.join(folder, MARKER)
    try:
        found = os.lstat(path)
    except FileNotFoundError:
        return None
    if not stat.S_ISREG(found.st_mode) or found.st_size > _LONGEST:
        return None
    with open(path, "rb") as stream:
        head, *names = stream.read().decode("utf-8", "replace").splitlines() or [""]
    if head not in (HEAD.rstrip("\n"), PUBLIC_HEAD.rstrip("\n")):
        return None
    return frozenset(filter(could_be_made, names))


def is_public(folder: str) -> bool:
    """Whether the site in `folder`, which has a marker that can be read, is one for everybody."""
    with open(os.path.join(folder, MARKER), "rb") as stream:
        return stream.read(len(PUBLIC_HEAD.encode())) == PUBLIC_HEAD.encode()
