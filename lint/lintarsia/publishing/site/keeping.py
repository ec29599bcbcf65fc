"""What stands in a site's folder and was made by no build: found, carried over into the new site, and never removed."""

import errno
import os
import shutil
import stat
from collections.abc import Collection, Iterator
from contextlib import suppress
from typing import NamedTuple

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.marker import MARKER

Known = dict[str, list[int]]  # place → what tells this very file from any other that may come to its place

# Where a disk has no second names for a file, or gives them to its owner only, the file is copied. EXDEV is not among
# them: another disk (or folder) is mounted there, and what is on it would be moved off it.
_NO_LINKS = frozenset({errno.EPERM, errno.EACCES, errno.EMLINK, errno.ENOSYS, errno.EOPNOTSUPP, errno.ENOTSUP})


class Kept(NamedTuple):
    """Something that no build made: its place from the site's folder, with slashes, and what it is."""

    name: str
    found: os.stat_result

    @property
    def is_folder(self) -> bool:
        return is_folder(self.found)

    @property
    def mark(self) -> list[int]:
        return [self.found.st_ino, self.found.st_size, self.found.st_mtime_ns]


def is_folder(found: os.stat_result) -> bool:
    """A folder that can be gone into; a link is none, nor is what Windows calls a junction."""
    return stat.S_ISDIR(found.st_mode) and not getattr(found, "st_reparse_tag", 0)


def kept(folder: str, made: Collection[str], inner: str = "") -> Iterator[Kept]:
    """What in `folder` is not among the files `made`, folders before what they hold; links are never followed.

    Raises Trouble for a repository or another disk, which cannot be carried, and OSError.
    """
    for entry in sorted(os.scandir(os.path.join(folder, inner)), key=lambda entry: entry.name):
        name, found = inner + entry.name, os.lstat(entry.path)
        if name == MARKER:
            continue
        if entry.name == ".git":
            raise Trouble(f"the folder {folder!r} holds {name!r}, a repository; name a folder for the site alone")
        if not is_folder(found):
            if name not in made or not stat.S_ISREG(found.st_mode):
                yield Kept(name, found)
            continue
        if found.st_dev != os.stat(folder).st_dev:
            raise Trouble(f"in the folder {folder!r}, {name!r} is another disk; name a folder for the site alone")
        inside = list(kept(folder, made, f"{name}/"))
        if inside or not os.listdir(entry.path):
            yield Kept(name, found)
            yield from inside


def carry(old: str, new: str, things: Collection[Kept], known: Known) -> str:
    """Give all `things` of `old` their place in `new` too, and note in `known` those that have it.

    Answers the name of one that has no place, since `new` has something else there, or "". Nothing of `old` changes.
    Raises OSError.
    """
    folders, clash = [], ""
    for thing in things:
        source, target = os.path.join(old, thing.name), os.path.join(new, thing.name)
        if known.get(thing.name) == thing.mark:
            continue
        if clash and thing.name.startswith(f"{clash}/"):
            continue  # before it is looked for: below a file nothing can be
        there = _found(target)
        if there is not None and not (is_folder(there) if thing.is_folder else os.path.samestat(there, thing.found)):
            clash = thing.name
        elif thing.is_folder and there is None:
            os.mkdir(target)
            folders.append((source, target))
        elif not thing.is_folder:
            if there is None:
                _link(thing, source, target)
            known[thing.name] = thing.mark
    for source, target in reversed(folders):  # a folder that cannot be written, only once it is filled
        with suppress(OSError):
            shutil.copystat(source, target)
    return clash


def _found(path: str) -> os.stat_result | None:
    with suppress(FileNotFoundError):
        return os.lstat(path)
    return None


def _link(thing: Kept, source: str, target: str) -> None:
    try:
        os.link(source, target, follow_symlinks=False)
    except (OSError, NotImplementedError) as failure:
        copied = stat.S_ISREG(thing.found.st_mode) or stat.S_ISLNK(thing.found.st_mode)  # a pipe would be waited for
        if not copied or (isinstance(failure, OSError) and failure.errno not in _NO_LINKS):
            raise
        shutil.copy2(source, target, follow_symlinks=False)
        if not os.path.islink(target):
            with open(target, "rb+") as stream:
                os.fsync(stream.fileno())  # the first one is about to go


def remove_made(folder: str, made: Collection[str], known: Known) -> bool:
    """Remove a site that has been replaced: the files it was made of, and what is `known` to stand in the new one.

    Whether the folder is gone; what is neither stays where it is. The marker goes last, so that this can be taken up
    again wherever it is cut short.
    """
    left = _clear(folder, made, known, "")
    if not left:
        with suppress(FileNotFoundError):
            os.unlink(os.path.join(folder, MARKER))
        os.rmdir(folder)
    return not left


def _clear(folder: str, made: Collection[str], known: Known, inner: str) -> bool:
    """Whether anything is left below `inner`."""
    left, path = False, os.path.join(folder, inner)
    if not os.access(path, os.W_OK):
        with suppress(OSError):
            os.chmod(path, 0o700)  # a folder of the user's that is write-protected, and stands in the new site as well
    for entry in list(os.scandir(path)):
        name, found = inner + entry.name, os.lstat(entry.path)
        if is_folder(found):
            if _clear(folder, made, known, f"{name}/"):
                left = True
            else:
                os.rmdir(entry.path)
        elif name == MARKER:
            continue
        elif (name in made and stat.S_ISREG(found.st_mode)) or known.get(name) == Kept(name, found).mark:
            os.unlink(entry.path)
        else:
            left = True
    return left
