"""Folders for the time of one run, and those that a killed run has left behind.

A folder holds a file that its run keeps locked. The system lets go of the lock when the process ends, whatever ends it,
so that a later run can tell what is left from what is in use, and never has to guess from names or ages.
"""

import os
import re
import shutil
import stat
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import NamedTuple

PREFIX = "lintarsia-"
LOCK = "in-use"  # inside each folder
_TEXT = b"A run of lintarsia works here. Once it has ended, this folder can go.\n"
_READY_AFTER = 60.0  # seconds; a lock file without its text is one of a run killed before it had locked it


class Held(NamedTuple):
    """A folder, and the open file that holds its lock."""

    path: str
    lock: int

    def release(self) -> None:
        """Whoever comes next may clear the folder away, if it is still there."""
        with suppress(OSError):
            os.close(self.lock)


def hold(parent: str, prefix: str) -> Held:
    """A new folder in `parent`, locked. Raises OSError."""
    for left in reversed(range(5)):
        path = tempfile.mkdtemp(prefix=prefix, dir=parent)
        try:
            lock = os.open(os.path.join(path, LOCK), os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
        except FileNotFoundError:  # another run has taken it for what a killed one left, in this very moment
            if not left:
                raise
            continue
        except OSError:
            os.rmdir(path)
            raise
        try:
            if _locked(lock, wait=True):
                os.write(lock, _TEXT)
        except OSError:  # a full disk, as a rule
            os.close(lock)
            shutil.rmtree(path, ignore_errors=True)
            raise
        break
    return Held(path, lock)


def abandoned(parent: str, prefix: str) -> Iterator[Held]:
    """Folders of runs that are over, each locked until it is released, so that two runs never clear the same."""
    try:
        entries = [entry for entry in os.scandir(parent) if _is_ours(entry.name, prefix)]
    except OSError:
        return
    for entry in entries:
        lock = _seize(entry)
        if lock is not None:
            yield Held(entry.path, lock)


def _is_ours(name: str, prefix: str) -> bool:
    """Whether `tempfile.mkdtemp` could have made the name: nobody's `lintarsia-notes` is looked into."""
    return name.startswith(prefix) and re.fullmatch(r"[a-z0-9_]{8}", name[len(prefix) :]) is not None


def _seize(entry: "os.DirEntry[str]") -> int | None:
    try:
        found = entry.stat(follow_symlinks=False)
        if not stat.S_ISDIR(found.st_mode) or (hasattr(os, "geteuid") and found.st_uid != os.geteuid()):
            return None
        return _lock_left(os.path.join(entry.path, LOCK))
    except FileNotFoundError:
        with suppress(OSError):
            os.rmdir(entry.path)  # killed before it held anything; a folder that holds something stays
        return None
    except OSError:
        return None


def _lock_left(file: str) -> int | None:
    """The lock of a folder that nobody uses; None while somebody does, or before its run has said so."""
    if sys.platform == "win32":
        os.unlink(file)  # refused while it is open anywhere
        return os.open(file, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600)
    lock = os.open(file, os.O_RDWR | getattr(os, "O_NOFOLLOW", 0))
    try:
        told = os.fstat(lock)
        if _locked(lock, wait=False) and (os.fstat(lock).st_size or time.time() - told.st_mtime > _READY_AFTER):
            return lock
    except OSError:
        pass
    os.close(lock)
    return None


def _locked(lock: int, *, wait: bool) -> bool:
    """Whether the file is locked now; False where somebody else has it, or the disk knows no locks."""
    if sys.platform == "win32":
        return True  # an open file cannot be removed there, which `_lock_left` goes by
    import fcntl

    try:
        fcntl.flock(lock, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except OSError:
        return False
    return True


@contextmanager
def alone(folder: str) -> Iterator[None]:
    """One run at a time does what is in the block, of all that name the same `folder`, which stays as it is. Where the
    system or the disk has no locks for folders, they do it as they come."""
    try:
        lock = os.open(folder, os.O_RDONLY)
    except OSError:
        yield
        return
    try:
        _locked(lock, wait=True)
        yield
    finally:
        os.close(lock)


@contextmanager
def scratch_folder() -> Iterator[str]:
    """A folder where the system keeps such, gone afterwards; what killed runs of this user left there goes first."""
    parent = tempfile.gettempdir()
    for left in abandoned(parent, PREFIX):
        remove(left)
    held = hold(parent, PREFIX)
    try:
        yield held.path
    finally:
        remove(held)


def remove(held: Held) -> None:
    """The folder and all in it; the lock file last, so that what a kill leaves is found again."""
    for name in _names(held.path):
        path = os.path.join(held.path, name)
        if name == LOCK:
            continue
        if os.path.isdir(path) and not os.path.islink(path):
            shutil.rmtree(path, ignore_errors=True)
        else:
            with suppress(OSError):
                os.unlink(path)
    if _names(held.path) == [LOCK]:
        if sys.platform == "win32":
            held.release()
        with suppress(OSError):
            os.unlink(os.path.join(held.path, LOCK))
            os.rmdir(held.path)
    held.release()


def _names(folder: str) -> list[str]:
    try:
        return os.listdir(folder)
    except OSError:
        return []
