"""A file's content replaced whole or not at all, whatever ends the process in between."""

import os
import re
import shutil
import stat
from collections.abc import Iterable
from contextlib import suppress
from functools import lru_cache

from lintarsia.ground.trouble import Trouble

_LEFT = re.compile(r"(.+)\.([1-9][0-9]{0,9})\.part", re.DOTALL)
LONGEST_NAME = 200  # bytes; file systems take 255, and the name beside is longer


def replace_file(file: str, data: bytes | Iterable[bytes], *, expect: bytes | None = None) -> None:
    """Write `data` beside `file` and rename it over the old one, which keeps its mode and owner; a link stays a link.

    `data` may come in pieces. With `expect`, only while the file still holds that. A device or pipe is written to as it
    is. Raises Trouble, and leaves the file as it was, where it is write-protected, has been changed, or cannot be
    written.
    """
    try:
        old = _there(file)
        target = os.path.realpath(file)
        if old is not None and not stat.S_ISREG(old.st_mode):
            _write_into(file, data)
            return
        if old is not None and not os.access(target, os.W_OK):
            raise Trouble(f"{file!r} is write-protected; it was left as it is")
        _swap(file, target, data, old, expect)
    except OSError as failure:
        raise Trouble(f"{file!r} cannot be written ({failure.strerror or failure})") from None
    except ValueError:
        raise Trouble(f"{file!r} cannot be written (no file can have this name)") from None


def create_file(file: str, data: bytes) -> None:
    """Write `data` beside `file` and give it that name, unless anything has it by then. Raises Trouble where it has.

    A link with the new name is made to what lies beside: making one never takes a name away, as renaming would.
    """
    try:
        beside = _beside(os.path.abspath(file), os.getpid())
        _clear_left(os.path.abspath(file))
        _write_beside(beside, data)
        try:
            _name(beside, file)
        finally:
            with suppress(OSError):
                os.unlink(beside)
    except FileExistsError:
        raise Trouble(f"{file!r} is there already; it was left as it is") from None
    except OSError as failure:
        raise Trouble(f"{file!r} cannot be written ({failure.strerror or failure})") from None
    except ValueError:
        raise Trouble(f"{file!r} cannot be written (no file can have this name)") from None


def _name(beside: str, file: str) -> None:
    try:
        os.link(beside, file)
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links: as near to it as can be had
        if os.path.lexists(file):
            raise FileExistsError from None
        os.rename(beside, file)


def _there(file: str) -> os.stat_result | None:
    """What the name leads to; None for a new file, at the end of a link or not. OSError for a circle of links."""
    try:
        return os.stat(file)
    except FileNotFoundError:
        return None


def _write_into(file: str, data: bytes | Iterable[bytes]) -> None:
    with open(file, "wb") as stream:
        stream.writelines([data] if isinstance(data, bytes) else data)


def _swap(
    file: str, target: str, data: bytes | Iterable[bytes], old: os.stat_result | None, expect: bytes | None
) -> None:
    beside = _beside(target, os.getpid())
    _clear_left(target)
    try:
        _write_beside(beside, data)
        if old is not None:
            _keep_owner(beside, old)
            shutil.copymode(target, beside)
        if expect is not None and _content(target) != expect:
            raise Trouble(f"{file!r} has been changed meanwhile; it was left as it is")
        os.replace(beside, target)
    except BaseException:  # an interrupt as well
        with suppress(OSError):
            os.unlink(beside)
        raise


def _write_beside(beside: str, data: bytes | Iterable[bytes]) -> None:
    # O_EXCL: whatever appears under this name meanwhile, a link above all, is not written through.
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    with open(os.open(beside, flags, 0o666), "wb") as stream:
        stream.writelines([data] if isinstance(data, bytes) else data)
        stream.flush()
        os.fsync(stream.fileno())  # the name must not be there before the content, not even after a power cut


def _beside(target: str, process: int) -> str:
    """In the same folder, so that renaming moves no content; never a name that a chart or a pattern could have."""
    folder, name = os.path.split(target)
    if len(os.fsencode(name)) > LONGEST_NAME:
        name = ".lintarsia"
    return os.path.join(folder, f"{name}.{process}.part")


def _clear_left(target: str) -> None:
    """Remove what killed processes have left beside this very file; nobody else's file has such a name."""
    folder = os.path.dirname(target)
    for process in _processes(folder).get(os.path.basename(_beside(target, 0)), ()):
        if process == os.getpid() or not _is_running(process):
            with suppress(OSError):
                os.unlink(_beside(target, process))


@lru_cache(maxsize=64)
def _processes(folder: str) -> dict[str, list[int]]:
    """The numbers in the names of such files, by the name that number 0 would have given; looked up once a run, since
    a run may write every chart of a large folder."""
    found: dict[str, list[int]] = {}
    with suppress(OSError):
        for name in os.listdir(folder or os.curdir):
            if match := _LEFT.fullmatch(name):
                found.setdefault(f"{match[1]}.0.part", []).append(int(match[2]))
    return found


def _is_running(process: int) -> bool:
    if os.name == "nt":
        return False  # there asking would end it, and a file that is open cannot be removed
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        pass  # another user's
    return True


def _keep_owner(beside: str, old: os.stat_result) -> None:
    new = os.stat(beside)
    if hasattr(os, "chown") and (new.st_uid, new.st_gid) != (old.st_uid, old.st_gid):
        with suppress(PermissionError):  # only the superuser may give files away
            os.chown(beside, old.st_uid, old.st_gid)


def _content(file: str) -> bytes | None:
    try:
        with open(file, "rb") as stream:
            return stream.read()
    except OSError:
        return None
