"""Which files a run looks at: paths named on the command line to charts, each with the settings that hold for it."""

import os
from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from lintarsia.engine.shown import shown
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import Trouble
from lintarsia.settings import SETTINGS_NAME, Settings, SettingsFinder


class Target(NamedTuple):
    """A chart or other file, as its path was named or met, with its settings and its size in bytes (0: not known)."""

    path: str
    settings: Settings
    size: int


def find_targets(paths: Sequence[str], finder: SettingsFinder, kinds: Collection[Kind] = (Kind.CHART,)) -> list[Target]:
    """The files of these kinds that `paths` name, each once, in the order of their paths.

    A folder stands for the charts below it (by the settings' `charts` patterns), hidden folders and links to folders
    left out; a settings file stands for those below its own folder. Any other file named outright is taken whatever
    its name, unless its settings exclude it. Raises Trouble for a path that is not there.
    """
    found: dict[str, Target] = {}
    for path in paths:
        if not path:
            raise Trouble("a path is empty (perhaps a variable that is not set); the current folder is .")
        for target in _expand(tidy(path), finder):
            if kind_of(target.path) in kinds:
                found.setdefault(os.path.abspath(target.path), target)
    return sorted(found.values(), key=lambda target: target.path)


def refuse_others(paths: Sequence[str], kinds: Collection[Kind]) -> None:
    """Raises Trouble where `paths` are files of other kinds and nothing else: an answer about no file would pass for
    one about them. Among others they are passed over, as they are in a folder."""
    others = [path for path in paths if os.path.isfile(path) and _other(path, kinds)]
    if others and len(others) == len(paths):
        expected = " or ".join(f"a {kind.noun}" for kind in Kind if kind in kinds)
        raise Trouble(f"{shown(others[0])} is {kind_of(others[0]).what}; expected {expected}")


def _other(path: str, kinds: Collection[Kind]) -> bool:
    return kind_of(path) not in kinds and os.path.basename(path) != SETTINGS_NAME


def tidy(path: str) -> str:
    """Without `./` and doubled slashes; `..` is left alone, since it means something else behind a link."""
    return path if os.pardir in path.split(os.sep) else os.path.normpath(path)


def _expand(path: str, finder: SettingsFinder) -> Iterator[Target]:
    if os.path.isdir(path):
        yield from _charts_below(path, finder)
    elif os.path.basename(path) == SETTINGS_NAME and os.path.isfile(path):
        yield from _charts_below(os.path.dirname(path) or os.curdir, finder)  # what changes with them
    elif os.path.lexists(path):  # a dangling or circling link is there: it is reported as unreadable
        full = os.path.abspath(path)
        settings = finder.for_folder(os.path.dirname(full))
        if not settings.excludes(full):
            yield Target(path, settings, os.path.getsize(path) if os.path.exists(path) else 0)
    else:
        raise Trouble(f"there is no file or folder {path!r}")


def _charts_below(path: str, finder: SettingsFinder) -> Iterator[Target]:
    for name, entry, settings in files_below(path, finder):
        if (kind_of(name) is not Kind.CHART or settings.takes(os.path.abspath(name))) and not _leads_to_folder(entry):
            yield Target(name, settings, _size(entry))


def files_below(path: str, finder: SettingsFinder) -> Iterator[tuple[str, "os.DirEntry[str]", Settings]]:
    """Files in the folder `path` and all below that no settings exclude, named from `path`, with their settings.

    Hidden folders are left out. Links to folders are not followed (no circles): they come as files do. Raises Trouble
    for a folder that cannot be read.
    """
    full = os.path.abspath(path)
    waiting = [] if finder.for_folder(full).excludes(full) else [("" if path == os.curdir else path, full)]
    while waiting:
        path, full = waiting.pop()
        settings = finder.for_folder(full)
        try:
            entries = list(os.scandir(full))
        except OSError as failure:
            raise Trouble(f"the folder {path or full!r} cannot be read ({failure.strerror})") from None
        for entry in entries:
            inner, name = os.path.join(full, entry.name), os.path.join(path, entry.name)
            if entry.is_dir(follow_symlinks=False):
                if not entry.name.startswith(".") and not settings.excludes(inner):
                    waiting.append((name, inner))
            elif not settings.excludes(inner):
                yield name, entry, settings


def _leads_to_folder(entry: "os.DirEntry[str]") -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False


def _size(entry: "os.DirEntry[str]") -> int:
    try:
        return entry.stat().st_size
    except OSError:
        return 0
