"""Which files of a repository differ from a commit, under which names, and in which lines."""

import os
import re
import shutil
from collections.abc import Iterator

from lintarsia.engine.git import git, names
from lintarsia.ground.kinds import kind_of
from lintarsia.ground.values import dataclass
from lintarsia.settings import SETTINGS_NAME

_HUNK = re.compile(rb"^@@ -\d+(?:,\d+)? \+(\d+)(?:,(\d+))? @@", re.MULTILINE)
Span = tuple[int, int]


@dataclass(frozen=True)
class Difference:
    """The work tree against a commit; all names from the top of the repository, with forward slashes.

    `there` are files that are new, changed or renamed, `gone` those that are no more. `moved` has a renamed file's
    former name.
    """

    there: frozenset[str]
    gone: frozenset[str]
    moved: dict[str, str]

    @property
    def anything(self) -> bool:
        return bool(self.there or self.gone)

    def reaches(self, name: str) -> bool:
        """Whether a file differs, or settings above it, which decide what is said of it."""
        return name in self.there or any(name.startswith(folder) for folder in self._settled())

    def concerns(self, name: str) -> bool:
        """The same of all that is read for a file: what names other files hangs on anything."""
        return self.reaches(name) if kind_of(name).whole else self.anything

    def _settled(self) -> Iterator[str]:
        for name in self.there | self.gone:
            folder, _, last = name.rpartition("/")
            if last == SETTINGS_NAME:
                yield f"{folder}/" if folder else ""


def differing(top: str, commit: str, scratch: str) -> Difference:
    """`scratch` is a folder for git's list of files, to which those that it does not know yet are added.

    So a chart that has been renamed outside git keeps its former name; the repository's own list stays as it is.
    """
    index = os.path.join(scratch, "now")
    own = git(top, "rev-parse", "--git-path", "index").decode("utf-8", "surrogateescape").rstrip("\n")
    own = os.environ.get("GIT_INDEX_FILE") or own
    if os.path.exists(os.path.join(top, own)):
        shutil.copy2(os.path.join(top, own), index)  # with its time: git looks twice at files of that very second
    also = {"GIT_INDEX_FILE": index}
    unknown = names(git(top, "ls-files", "--others", "--exclude-standard", "-z"))  # a repository inside ends in a slash
    if charts := "".join(f"{name}\0" for name in unknown if name.endswith(YAML)):
        data = charts.encode("utf-8", "surrogateescape")
        git(top, *_LITERAL, "add", "-N", "--pathspec-from-file=-", "--pathspec-file-nul", also=also, data=data)
    told = git(top, "diff", "--name-status", "-M", "-z", "--no-ext-diff", "--no-relative", commit, "--", also=also)
    return _read(iter(names(told)), unknown)


def between(top: str, one: str, other: str) -> Difference:
    """Two commits against each other: what the later has, against the earlier."""
    words = ("diff", "--name-status", "-M", "-z", "--no-ext-diff", "--no-relative", one, other, "--")
    return _read(iter(names(git(top, *words))), [])


YAML = (".yaml", ".yml")
_LITERAL = ("--literal-pathspecs", "-c", "core.safecrlf=false")


def _read(words: Iterator[str], unknown: list[str]) -> Difference:
    there: set[str] = set(unknown)
    gone: set[str] = set()
    moved: dict[str, str] = {}
    for status in words:
        name = next(words)
        if status.startswith("R"):
            new = next(words)
            moved[new] = name
            gone.add(name)
            there.add(new)
        else:
            (gone if status == "D" else there).add(name)
    return Difference(frozenset(there), frozenset(gone), moved)


def changed_lines(old: str, new: str) -> tuple[Span, ...]:
    """The lines of the file `new` that `old` has not, as (first, last) from 1.

    Where lines were only taken out, the lines that now touch there are the changed ones.
    """
    options = ("--no-index", "-U0", "--no-color", "--no-ext-diff", "--no-textconv", "--text", "--no-prefix")
    patch = git(os.curdir, "diff", *options, "--", os.path.realpath(old), os.path.realpath(new), fine=(0, 1))
    return tuple(_span(int(start), int(count) if count else 1) for start, count in _HUNK.findall(patch))


def _span(start: int, count: int) -> Span:
    return (start, start + 1) if count == 0 else (start, start + count - 1)
