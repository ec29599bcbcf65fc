"""What was knitted, looked up in the repository's history by its fingerprint."""

import os
from functools import cached_property
from typing import NamedTuple

from lintarsia.engine.git import git, top_of
from lintarsia.engine.knitted import knit_work
from lintarsia.ground.trouble import Trouble
from lintarsia.knits.model import KnitLog
from lintarsia.knits.work import KnitWork
from lintarsia.reading.source import Read, cannot_read
from lintarsia.settings import Settings

MOST_COMMITS = 100  # that changed a file in the pattern's folder; a test knit of something older is one of its own


class Then(NamedTuple):
    """A log with what was knitted as it was at a commit, which `commit` names: `1f2e3d4 of 2026-05-02`."""

    work: KnitWork
    commit: str


class History:
    """The commits that touched the folder of a pattern, newest first; none where there is no git to ask."""

    def __init__(self, path: str) -> None:
        self._folder = os.path.dirname(os.path.abspath(path))
        self._known: dict[tuple[str, str, str, str | None], KnitWork] = {}

    def of(self, log: KnitLog, settings: Settings) -> Then | None:
        """The newest commit at which what the log names had the fingerprint that it states."""
        for commit, named in self._commits:
            known = self._at(commit, log, settings)
            if log.fingerprint in known.fingerprints:
                return Then(KnitWork(log, known.knitted), named)
        return None

    def _at(self, commit: str, log: KnitLog, settings: Settings) -> KnitWork:
        """What a log names as it was, read once for all logs of a size."""
        key = (commit, os.path.dirname(log.path), log.names, log.size)
        if key not in self._known:
            self._known[key] = knit_work(log, settings, self._reader(commit))
        return self._known[key]

    @cached_property
    def _commits(self) -> list[tuple[str, str]]:
        words = ("log", f"-{MOST_COMMITS}", "--format=%H %cs", "--", ".")
        try:
            listed = git(self._folder, *words).decode("ascii", "replace").splitlines()
        except Trouble:  # no git, no repository, no commit: then nothing is known of what was
            return []
        return [(line[:40], f"{line[:7]} of {line[41:]}") for line in listed]

    @cached_property
    def _top(self) -> str:
        return top_of(self._folder)

    def _reader(self, commit: str) -> Read:
        def read(path: str) -> bytes:
            name = os.path.relpath(os.path.realpath(path), self._top).replace(os.sep, "/")
            try:
                return git(self._top, "cat-file", "blob", f"{commit}:{name}")
            except Trouble:
                raise cannot_read("missing", "it was not there then") from None

        return read
