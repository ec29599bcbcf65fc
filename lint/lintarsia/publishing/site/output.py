"""The folder that a site is written to: only ours is emptied, and an old site stands until the new one is whole."""

import os
import re
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import lru_cache
from pathlib import Path

from lintarsia.ground.trouble import Trouble

_SEPARATOR = re.compile(r"[/\\\0]")
MARKER = ".lintarsia-site"
MARKER_TEXT = "This folder is made by `lintarsia site`, which replaces it whole. Keep nothing of your own in it.\n"


def write_inside(root: str, name: str, content: str | bytes) -> None:
    """Write `root/name`. Raises ValueError for a name that leads out of `root`, whatever it is made of."""
    folder, _, last = name.rpartition("/")
    write_all_inside(root, folder, {last: content})


def write_all_inside(root: str, folder: str, files: Mapping[str, str | bytes]) -> None:
    """Write `files` to `root/folder`; raises ValueError likewise, before anything is written."""
    parts = folder.split("/") if folder else []
    if not all(_is_name(part) for part in [*parts, *files]):
        raise ValueError(f"{folder}/{', '.join(files)} is no place inside the site")
    path = _folder(root, folder)
    for name, content in files.items():
        # Unbuffered, for what it saves in calls to the system: a site of a thousand charts has four thousand files.
        left = memoryview(content.encode("utf-8") if isinstance(content, str) else content)
        with open(os.path.join(path, name), "wb", buffering=0) as stream:
            while left:
                left = left[stream.write(left) :]


@lru_cache(maxsize=256)
def _folder(root: str, folder: str) -> str:
    """The folder's path, made and looked over: once a build, see `look_again`."""
    if not folder:
        os.makedirs(root, exist_ok=True)
        return root
    above, _, name = folder.rpartition("/")
    path = os.path.join(_folder(root, above), name)
    try:
        os.mkdir(path)
    except FileExistsError:
        # What is there may be a link; what was made just now, in a folder that was looked over, is none.
        if os.path.realpath(path) != os.path.join(_real(root), *folder.split("/")):
            raise ValueError(f"{folder!r} leads out of the site") from None
    return path


def look_again() -> None:
    """For the start of a build: folders that an earlier one looked over may have gone, or have become links."""
    _folder.cache_clear()
    _real.cache_clear()


def _is_name(part: str) -> bool:
    return part not in ("", ".", "..") and not _SEPARATOR.search(part)


@lru_cache(maxsize=8)
def _real(root: str) -> str:
    return os.path.realpath(root)


def check_output(output: str) -> None:
    """Raises Trouble unless `output` is not there yet, empty, or a site that was made here."""
    path = os.path.realpath(output)
    if not os.path.lexists(path):
        return
    if not os.path.isdir(path):
        raise Trouble(f"{output!r} is a file; name a folder for the site")
    if os.path.samefile(path, os.curdir) or path == os.path.dirname(path):
        raise Trouble(f"{output!r} is the folder this runs in; name another for the site")
    try:
        names = os.listdir(path)
    except OSError as failure:
        raise Trouble(f"the folder {output!r} cannot be read ({failure.strerror})") from None
    if names and MARKER not in names:
        raise Trouble(f"the folder {output!r} holds files that are no site of ours; name an empty or a new one")


@contextmanager
def replacing(output: str) -> Iterator[str]:
    """A folder to build in, beside `output`; it takes `output`'s place once the block ends without a failure.

    Raises Trouble where the folder cannot be made or replaced; then, and on any failure in the block, the old site is
    as it was.
    """
    check_output(output)
    path = os.path.realpath(output)
    parent, name = os.path.split(path)
    try:
        os.makedirs(parent, exist_ok=True)
        fresh = tempfile.mkdtemp(prefix=f".{name}.making-", dir=parent)
    except OSError as failure:
        raise Trouble(f"no folder can be made in {parent!r} ({failure.strerror})") from None
    try:
        yield fresh
        Path(fresh, MARKER).write_text(MARKER_TEXT, encoding="utf-8")
        os.chmod(fresh, 0o777 & ~_umask())
        _swap(fresh, path, output)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _swap(fresh: str, path: str, output: str) -> None:
    """`fresh` takes the place of `path`. Where the system can exchange two names at once, there is no moment without
    a site; elsewhere the old one stands aside for that moment, in a hidden folder.
    """
    check_output(output)  # it may have been filled meanwhile
    if os.path.isdir(path) and exchange(fresh, path):
        return  # whoever made `fresh` clears away what is there now: the old site
    old = ""
    try:
        if os.path.isdir(path):
            old = tempfile.mkdtemp(prefix=f".{os.path.basename(path)}.old-", dir=os.path.dirname(path))
            os.rename(path, os.path.join(old, "site"))
        os.rename(fresh, path)
    except OSError as failure:
        if old and not os.path.lexists(path):
            with suppress(OSError):
                os.rename(os.path.join(old, "site"), path)
        raise Trouble(f"the folder {output!r} cannot be replaced ({failure.strerror})") from None
    finally:
        if old and os.path.lexists(path):
            shutil.rmtree(old, ignore_errors=True)


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
