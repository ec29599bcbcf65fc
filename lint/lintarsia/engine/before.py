"""A chart as it was committed last, for rules that look at what has become of it.

Only charts that differ from the commit are fetched, and git is asked once for all of a repository which these are: what
it said holds until a commit is made or a file written after it was asked.
"""

import os
import time
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.ground.trouble import Trouble
from lintarsia.reading import read_chart

TICK_NS = 50_000_000  # clocks of files are coarser than those of programs


class _State(NamedTuple):
    """When git was asked, how the repository's own files stood, and which names from its top differ from the commit."""

    asked_ns: int
    own: tuple[int, ...]
    differ: frozenset[str]


_STATES: dict[str, _State] = {}
_NAMES: dict[tuple[str, str], tuple[tuple[int, ...], frozenset[str]]] = {}
"""How the repository's own files stood, and the names that the commit has in a folder: for content that is no file's.
Of that git would else be asked each time, most often about a file that it does not know."""


def committed(file: str, data: bytes | None = None) -> Chart | None:
    """The chart at `file` as the commit that is checked out has it; None where that is how it is now, where there is no
    repository, no such file in it, or none that can be read. `data` is its content where that is not the disk's."""
    found = _repository(file)
    if found is None:
        return None
    top = os.path.realpath(found)
    from lintarsia.engine.git import QUIET, git  # loaded only where there is a repository

    name = os.path.relpath(os.path.realpath(file), top).replace(os.sep, "/")
    try:
        if not (_differs(top, name, file) if data is None else _was_there(top, name)):
            return None
        then = git(top, *QUIET, "cat-file", "blob", f"HEAD:{name}")
    except (Trouble, OSError, ValueError):
        return None
    return None if then == data else read_chart(name, then).chart


def _repository(file: str) -> str | None:
    """The nearest folder above with `.git` in it. Asked for every chart, most of which are soon done with."""
    path = os.path.abspath(file)
    end = path.rfind(os.sep)
    while end >= 0:
        if os.access(f"{path[:end]}{os.sep}.git", os.F_OK):
            return path[:end] or os.sep
        end = path.rfind(os.sep, 0, end)
    return None


def _differs(top: str, name: str, file: str) -> bool:
    state, own = _STATES.get(top), _own(top)
    written = os.stat(file).st_mtime_ns
    if state is not None and state.own == own and written > state.asked_ns - TICK_NS:
        return True  # it may, since it was written after git was asked
    if state is None or state.own != own:
        from lintarsia.engine.git import changed_names

        state = _STATES[top] = _State(time.time_ns(), own, frozenset())  # which stays where git cannot say
        state = _STATES[top] = state._replace(differ=frozenset(changed_names(top)))
    return name in state.differ


def _was_there(top: str, name: str) -> bool:
    folder = name.rpartition("/")[0]
    own, place = _own(top), (top, folder)
    if place not in _NAMES or _NAMES[place][0] != own:
        from lintarsia.engine.git import committed_names

        _NAMES[place] = own, frozenset()  # which stays where git cannot say
        _NAMES[place] = own, frozenset(committed_names(top, folder))
    return name in _NAMES[place][1]


def _own(top: str) -> tuple[int, ...]:
    """What changes with every commit: the list of files, and the record of commits."""
    folder = os.path.join(top, ".git")
    if os.path.isfile(folder):  # a work tree beside the repository
        with open(folder, encoding="utf-8") as stream:
            folder = os.path.join(top, stream.read().removeprefix("gitdir:").strip())
    found = []
    for name in ("index", "HEAD", os.path.join("logs", "HEAD")):
        path = os.path.join(folder, name)
        if os.path.exists(path):
            found += [os.stat(path).st_mtime_ns, os.stat(path).st_size]
    return tuple(found)
