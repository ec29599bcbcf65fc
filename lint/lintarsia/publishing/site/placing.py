"""Files of a site written to their places in its folder, and nowhere else."""

import os
import re
from collections.abc import Mapping
from functools import lru_cache

_SEPARATOR = re.compile(r"[/\\\0]")


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
