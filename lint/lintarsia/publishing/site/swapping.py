"""An old site stands until the new one is whole; then they change places, and what is not ours is in both meanwhile.

The new site is made in a hidden folder beside the old one, which holds besides

* `site`: the new site; once they have changed places, the old one,
* `made`: the number by which the system knows the new site's folder, so that a later run can tell the two apart,
* `carried`: the files of others that were given a place in the new site before it came to its own,
* `old`: the old site, where the system cannot exchange two names at once.

Killed between any two steps, the next run finds there what to bring back and what may go (`clear`).
"""

import errno
import hashlib
import json
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from lintarsia.ground.scratch import Held, abandoned, alone, hold, remove
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.keeping import Known, carry, kept, remove_made
from lintarsia.publishing.site.marker import MARKER, could_be_made, marker_text, read_marker
from lintarsia.publishing.site.refusing import check_output

SITE, OLD, MADE, CARRIED = "site", "old", "made", "carried"
LONGEST_NAME = 200  # bytes; file systems take 255, and the name beside is longer
_DISK = frozenset(
    {errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EROFS, errno.EIO, errno.EACCES, errno.EPERM, errno.ENAMETOOLONG}
)


@contextmanager
def replacing(output: str, *, public: bool = False) -> Iterator[str]:
    """A folder to build in, beside `output`; it takes `output`'s place once the block ends without a failure.

    Files in `output` that no build made stay. Raises Trouble where the folder cannot be made or replaced, or the disk
    is full; then, and on any failure in the block, the old site is as it was. `beside` gives more folders.
    """
    path = os.path.realpath(output)
    parent, prefix = os.path.dirname(path), f".{_short(os.path.basename(path))}.making-"
    with alone(parent):
        for left in abandoned(parent, prefix):
            clear(left, path)
        check_output(output, public=public)
    try:
        os.makedirs(parent, exist_ok=True)
        held = hold(parent, prefix)
    except OSError as failure:
        raise Trouble(f"no folder can be made in {parent!r} ({failure.strerror})") from None
    try:
        fresh = _begun(held.path)
        yield fresh
        with alone(parent):  # no other build may come between the list of what is there and the exchange
            _finish(fresh, path, output, public=public)
            _install(held.path, path, output)
    except OSError as failure:
        if failure.errno not in _DISK:
            raise
        raise Trouble(f"the site in {output!r} cannot be made ({failure.strerror})") from failure
    finally:
        with alone(parent):
            clear(held, path)


def beside(fresh: str, name: str) -> str:
    """A folder for the time of the build, beside the one that becomes the site."""
    path = os.path.join(os.path.dirname(fresh), name)
    os.mkdir(path)
    return path


def _short(name: str) -> str:
    return name if len(os.fsencode(name)) <= LONGEST_NAME else hashlib.sha256(os.fsencode(name)).hexdigest()[:16]


def _begun(folder: str) -> str:
    fresh = os.path.join(folder, SITE)
    os.mkdir(fresh)
    with open(os.path.join(folder, MADE), "w", encoding="ascii") as stream:
        stream.write(f"{os.stat(fresh).st_ino}\n")
    return fresh


def _finish(fresh: str, path: str, output: str, *, public: bool) -> None:
    """The new site with its marker, and with what it keeps of the old one."""
    names = [os.path.relpath(os.path.join(at, name), fresh) for at, _, files in os.walk(fresh) for name in files]
    names = [name.replace(os.sep, "/") for name in names]
    assert all(map(could_be_made, names)), names
    with open(os.path.join(fresh, MARKER), "w", encoding="utf-8", newline="\n") as stream:
        stream.write(marker_text(names, public=public))
    known: Known = {}
    clash = carry(path, fresh, check_output(output, public=public), known)  # it may have been filled meanwhile
    if clash:
        raise Trouble(f"{os.path.join(output, clash)!r} was made by no build, and a page has its place; move it away")
    with open(os.path.join(os.path.dirname(fresh), CARRIED), "w", encoding="ascii") as stream:
        json.dump(known, stream)
    os.chmod(fresh, os.stat(path).st_mode & 0o7777 if os.path.isdir(path) else 0o777 & ~_umask())


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _install(folder: str, path: str, output: str) -> None:
    """The new site takes its place. Where the system can exchange two names at once, there is no moment without a
    site; elsewhere the old one stands aside for that moment."""
    fresh, old = os.path.join(folder, SITE), os.path.join(folder, OLD)
    try:
        if os.path.isdir(path):
            if not exchange(fresh, path):
                os.rename(path, old)
                os.rename(fresh, path)
        else:
            try:
                os.rename(fresh, path)
            except OSError:  # another build was quicker
                if not (os.path.isdir(path) and exchange(fresh, path)):
                    raise
    except OSError as failure:
        if os.path.isdir(old) and not os.path.lexists(path):
            with suppress(OSError):
                os.rename(old, path)
        raise Trouble(f"the folder {output!r} cannot be replaced ({failure.strerror})") from None
    replaced = _replaced(folder)
    if replaced is not None and not _put_away(folder, replaced, path):
        raise Trouble(
            f"the new site is in {output!r}; what was put there while it came to its place is kept in {replaced!r}"
        )


def _replaced(folder: str) -> str | None:
    """The old site, once the new one has its place."""
    old, site = os.path.join(folder, OLD), os.path.join(folder, SITE)
    if os.path.isdir(old):
        return None if os.path.isdir(site) else old
    return site if os.path.isdir(site) and not _is_new(folder) else None


def _is_new(folder: str) -> bool:
    """Whether what is in the hidden folder is the new site still."""
    site, told = os.path.join(folder, SITE), ""
    with suppress(FileNotFoundError), open(os.path.join(folder, MADE), encoding="ascii") as stream:
        told = stream.read()
    if not told.endswith("\n"):
        return not os.listdir(site)  # it ended, or the disk was full, before anything was made
    return told == f"{os.stat(site).st_ino}\n"


def _put_away(folder: str, old: str, path: str) -> bool:
    """Remove the replaced site, and give what came to it at the last moment its place in the new one. Whether nothing
    of it is left."""
    try:
        made = read_marker(old) or frozenset()
        with open(os.path.join(folder, CARRIED), encoding="ascii") as stream:
            known: Known = json.load(stream)
        with suppress(Trouble):
            carry(old, path, list(kept(old, made)), known)
        return remove_made(old, made, known)
    except (OSError, ValueError):
        return False


def clear(held: Held, path: str) -> None:
    """Clear away the hidden folder of a build that is over, or was killed: bring back an old site that had stood aside,
    and remove what was made and what has its place elsewhere. Anything else stays where it is."""
    folder = held.path
    old, site = os.path.join(folder, OLD), os.path.join(folder, SITE)
    with suppress(OSError):
        if os.path.isdir(old) and os.path.isdir(site) and not os.path.lexists(path):
            os.rename(old, path)
        replaced = _replaced(folder)
        if replaced is not None:
            _put_away(folder, replaced, path)
        if not os.path.isdir(old) and (not os.path.isdir(site) or _is_new(folder)):
            _remove_new(site)
            if not os.path.lexists(site):  # else the next run has to know what it is
                remove(held)
    held.release()


def _remove_new(site: str) -> None:
    """A new site that did not come to its place. What it has of others is there as a second name or a copy."""
    for folder, _, _ in os.walk(site):
        if not os.access(folder, os.W_OK):
            os.chmod(folder, 0o700)
    shutil.rmtree(site, ignore_errors=True)


def exchange(one: str, other: str) -> bool:
    """Give each of two names what the other stands for, at once; False where the system or the disk cannot."""
    import ctypes

    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError, TypeError):  # no such call here
        return False
    renameat2.argtypes = (ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_uint)
    here, exchanging = -100, 2  # AT_FDCWD, RENAME_EXCHANGE: linux/fcntl.h, linux/fs.h
    return bool(renameat2(here, os.fsencode(one), here, os.fsencode(other), exchanging) == 0)
