"""Which commit a file stands at, for pages and prints, so that words about "row 14" can be tied to a state of it."""

import os
from typing import NamedTuple

from lintarsia.engine.git import QUIET, changed_names, git, names
from lintarsia.ground.bounds import repository
from lintarsia.ground.trouble import Trouble


class Revision(NamedTuple):
    """The commit that is checked out, shortened, its day as ISO 8601 has it, and whether the file is just so in it."""

    commit: str
    date: str
    clean: bool

    @property
    def words(self) -> str:
        """`commit 1a2b3c4, 2026-11-05`; `changed since commit 1a2b3c4, 2026-11-05`."""
        return f"{'' if self.clean else 'changed since '}commit {self.commit}, {self.date}"


def revision_of(path: str) -> Revision | None:
    """That of a file; None outside a repository, before the first commit and where there is no git to ask."""
    return Revisions().of(path)


class Revisions:
    """Those of many files: each repository is asked once, for a site has many charts."""

    def __init__(self) -> None:
        self._states: dict[str, tuple[str, str, frozenset[str]] | None] = {}

    def of(self, path: str) -> Revision | None:
        """As `revision_of`."""
        top = os.path.realpath(repository(path))
        if not os.path.lexists(os.path.join(top, ".git")):
            return None
        if top not in self._states:
            self._states[top] = _state(top)
        found = self._states[top]
        if found is None:
            return None
        commit, date, dirty = found
        name = os.path.relpath(os.path.realpath(path), top).replace(os.sep, "/")
        return Revision(commit, date, name not in dirty)


def _state(top: str) -> tuple[str, str, frozenset[str]] | None:
    """Commit, day and the names of files that differ from it."""
    try:
        commit, date = git(top, *QUIET, "log", "-1", "--format=%h %cs").decode("ascii").split()
        dirty = changed_names(top) + names(git(top, *QUIET, "ls-files", "--others", "-z"))
    except (Trouble, ValueError):
        return None
    return commit, date, frozenset(dirty)
