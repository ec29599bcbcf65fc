"""The charts of a commit, beside those of today, so that one check can look at both.

They lie in a folder of their own, below their full paths, with the links and the patterns among them; settings are
those of the commit, too. Rules from elsewhere are those of today: no code of the past is run.
"""

import os
from dataclasses import replace

from lintarsia.engine.differing import YAML, differing
from lintarsia.engine.git import commit_of, git, names
from lintarsia.engine.targets import Target
from lintarsia.ground.kinds import SUFFIXES, kind_of
from lintarsia.ground.trouble import Trouble
from lintarsia.settings import SETTINGS_NAME, Settings, SettingsFinder
from lintarsia.settings.reader import read_settings

LINK = "120000"  # the mode of a symbolic link in git's list of files


class Past:
    """A repository as it was at a commit. `scratch` is an empty folder for it."""

    def __init__(self, top: str, revision: str, scratch: str, finder: SettingsFinder) -> None:
        self.top, self._scratch, self._finder = top, scratch, finder
        self._commit = commit_of(top, revision)
        self.difference = differing(top, self._commit, scratch)
        self._unpacked = False
        self._settings: dict[str, Settings] = {}

    def concerns(self, path: str) -> bool:
        """Whether what a check says of this file may differ: of a chart for its own sake, a link's target's or its
        settings', of what names other files for that of anything it may name."""
        if not kind_of(path).whole:
            return self.difference.anything
        linked = self.name(os.path.realpath(path))
        return self.difference.reaches(self.name(path)) or self.difference.reaches(linked)

    def name(self, path: str) -> str:
        return os.path.relpath(path, self.top).replace(os.sep, "/")

    @property
    def commit(self) -> str:
        """Its full name."""
        return self._commit

    def files(self) -> list[str]:
        """The names of its charts and patterns from the top, in order."""
        self._unpack()
        top, found = self._then(self.top), []
        for folder, _, files in os.walk(top):
            found += [os.path.join(folder, name) for name in files if name.endswith(tuple(SUFFIXES.values()))]
        return sorted(os.path.relpath(file, top).replace(os.sep, "/") for file in found)

    def target(self, path: str) -> Target | None:
        """The file that the one at `path` was; None where it was not, or the settings of then left it out."""
        name = self.name(path)
        return self.named(self.difference.moved.get(name, name))

    def named(self, name: str) -> Target | None:
        """The file that had this name from the top; None as in `target`."""
        self._unpack()
        there = os.path.join(self.top, name)
        old = self._then(there)
        if not os.path.lexists(old):
            return None
        settings = self._settings_of(os.path.dirname(there))
        return None if settings.excludes(old) else Target(old, settings, _size(old))

    def _then(self, path: str) -> str:
        """Where something of an absolute path lies in the copy. Whole paths are kept, for settings may lie above."""
        return os.path.join(self._scratch, "then", os.path.splitdrive(path)[1].lstrip(os.sep))

    def _unpack(self) -> None:
        """Write the commit's YAML files and links, once, by git itself: as it would check them out here."""
        if self._unpacked:
            return
        self._unpacked = True
        top = self._then(self.top)
        os.makedirs(os.path.join(top, ".git"))  # the end of the repository, for paths that patterns state
        also = {"GIT_INDEX_FILE": os.path.join(self._scratch, "list")}
        whole = ("-c", "core.sparseCheckout=false")
        git(self.top, *whole, "read-tree", self._commit, also=also)
        wanted = "".join(f"{name}\0" for name in self._wanted(also))
        words = ("checkout-index", "-z", "--stdin", "--quiet", f"--prefix={top}{os.sep}")
        git(self.top, *whole, *words, also=also, data=wanted.encode("utf-8", "surrogateescape"))

    def _wanted(self, also: dict[str, str]) -> list[str]:
        asked = self.difference.there | self.difference.gone | set(self.difference.moved.values())
        listed = (entry.partition("\t") for entry in names(git(self.top, "ls-files", "-s", "-z", also=also)))
        return [name for kind, _, name in listed if name.endswith(YAML) or kind.startswith(LINK) or name in asked]

    def _settings_of(self, folder: str) -> Settings:
        """Those that held for charts in `folder`, with the paths of then."""
        if folder not in self._settings:
            self._settings[folder] = self._find(folder)
        return self._settings[folder]

    def _find(self, folder: str) -> Settings:
        if self._finder.fixed is not None:
            return self._moved(self._finder.fixed)
        file = os.path.join(folder, SETTINGS_NAME)
        if os.path.isfile(self._then(file)):
            return self._read(file, folder)
        above = os.path.dirname(folder)
        if folder == self.top:  # not looked for in the copy any further: above it lie other people's files
            return self._moved(self._finder.for_folder(above))
        return self._settings_of(above)

    def _read(self, file: str, folder: str) -> Settings:
        if self.name(file) in self.difference.there | self.difference.gone:
            try:
                return read_settings(self._then(file), root=self._then(folder))
            except Trouble:  # they were not in order, or name rules that only today's can bring
                pass
        return self._moved(self._finder.for_folder(folder))

    def _moved(self, settings: Settings) -> Settings:
        return replace(settings, root=self._then(settings.root))


def _size(path: str) -> int:
    return os.path.getsize(path) if os.path.exists(path) else 0
