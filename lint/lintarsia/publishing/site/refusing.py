"""Folders that no site is written to, since what they hold is somebody's work."""

import os
from collections.abc import Iterable, Iterator
from contextlib import suppress

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.keeping import Kept, kept
from lintarsia.publishing.site.marker import MARKER, is_public, read_marker


def check_output(output: str, *, public: bool = False) -> list[Kept]:
    """What `output` holds that no build made, and that a new site therefore keeps.

    Raises Trouble unless `output` is not there yet, empty, or a site that was made here and is told from what else is
    in it; for a folder that holds a repository or the one this runs in; and for one with the other face of a site, the
    `public` one or the working one, since people have its address.
    """
    path = os.path.realpath(output)
    if not os.path.lexists(path):
        return []
    if not os.path.isdir(path):
        raise Trouble(f"{output!r} is a file; name a folder for the site")
    if path == os.path.dirname(path) or _holds(path, _current()):
        raise Trouble(f"{output!r} is the folder this runs in, or holds it; name another for the site")
    try:
        names, made = os.listdir(path), read_marker(path)
        if names and MARKER not in names:
            raise Trouble(f"the folder {output!r} holds files that are no site of ours; name an empty or a new one")
        if made is None and len(names) > 1:
            raise Trouble(_NO_LIST.format(output=output))
        if made is not None and is_public(path) is not public:
            raise Trouble((_NOT_PUBLIC if public else _IS_PUBLIC).format(output=output))
        return list(kept(path, made or ()))
    except OSError as failure:
        raise Trouble(f"the folder {output!r} cannot be read ({failure.strerror})") from None


_IS_PUBLIC = (
    "the folder {output!r} holds a site for everybody, made with --public, and this one would show them results; name "
    "another folder, make it with --public, or delete that folder first"
)
_NOT_PUBLIC = (
    "the folder {output!r} holds a working site, with results; name another folder for the public one, or delete that "
    "folder first"
)
_NO_LIST = (
    "the folder {output!r} holds a site without a list of its files, as the first releases made them, so that nobody "
    "knows what in it is yours; move that out and delete the folder, or name another"
)


def spare(output: str, files: Iterable[str]) -> None:
    """Raises Trouble where `output` holds one of the `files`, by its name or by what the name leads to."""
    path = os.path.realpath(output)
    places: dict[str, str] = {}  # folder → a file of it
    for file in files:
        folder, name = os.path.split(file)
        for real in (os.path.realpath(file), os.path.join(os.path.realpath(folder or os.curdir), name)):
            places.setdefault(os.path.dirname(real), file)
    for folder, file in places.items():
        if _holds(path, folder):
            raise Trouble(f"the folder {output!r} holds {file!r}, which this site is made from; name another folder")


def _current() -> str:
    """The folder this runs in, "" where it has been removed."""
    with suppress(OSError):
        return os.getcwd()
    return ""


def _holds(path: str, folder: str) -> bool:
    """Whether `folder` is `path` or below it. The system is asked: names that differ in case may mean the same."""
    try:
        wanted = os.stat(path)
    except OSError:
        return False
    return any(os.path.samestat(wanted, found) for found in _upwards(folder))


def _upwards(folder: str) -> Iterator[os.stat_result]:
    above = ""
    while folder and folder != above:
        with suppress(OSError):
            yield os.stat(folder)
        folder, above = os.path.dirname(folder), folder
