"""What has changed since a git revision: which charts, and which of their lines."""

import os
import re
import subprocess
from collections.abc import Sequence

from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.result import Result

_HUNK = re.compile(rb"^@@ -\d+(?:,\d+)? \+(\d+)(?:,(\d+))? @@", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Changed:
    """The changed lines of one file, as (first, last) from 1; None: the whole file is new."""

    lines: tuple[tuple[int, int], ...] | None

    def touches(self, result: Result) -> bool:
        """Whether a result speaks of a changed row, or of the file as a whole."""
        if self.lines is None or result.row is None:
            return True
        first, last = result.region.line, result.region.end_line
        return any(start <= last and first <= end for start, end in self.lines)


class Since:
    """Asks git, repository by repository, which files differ from `revision`. Raises Trouble where git cannot say."""

    def __init__(self, revision: str) -> None:
        self.revision = revision
        self._repositories: dict[str, str] = {}  # folder → top of its work tree
        self._commits: dict[str, str] = {}  # top → the commit's full name
        self._names: dict[str, tuple[frozenset[str], frozenset[str]]] = {}  # top → changed files, untracked files

    def changed(self, path: str) -> Changed | None:
        """What has changed in a file; None where nothing has."""
        full = os.path.join(os.path.realpath(os.path.dirname(os.path.abspath(path))), os.path.basename(path))
        top = self._repository(os.path.dirname(full))
        name = os.path.relpath(full, top).replace(os.sep, "/")
        changed, untracked = self._changed_names(top)
        if name in untracked:
            return Changed(None)
        if name not in changed:
            return None
        return Changed(self._lines(top, name))

    def _repository(self, folder: str) -> str:
        if folder not in self._repositories:
            shown = _git(folder, "rev-parse", "--show-toplevel").decode("utf-8", "surrogateescape").rstrip("\n")
            self._repositories[folder] = os.path.realpath(shown)
        return self._repositories[folder]

    def _commit(self, top: str) -> str:
        if top not in self._commits:
            asked = ("rev-parse", "--verify", "--quiet", "--end-of-options", self.revision + "^{commit}")
            try:
                self._commits[top] = _git(top, *asked).decode("ascii").strip()
            except Trouble:
                raise Trouble(f"git knows no revision {self.revision!r} in {top!r}") from None
        return self._commits[top]

    def _changed_names(self, top: str) -> tuple[frozenset[str], frozenset[str]]:
        if top not in self._names:
            changed = _git(top, "diff", "--name-only", "-z", "--no-renames", "--no-ext-diff", self._commit(top), "--")
            untracked = _git(top, "ls-files", "--others", "--exclude-standard", "-z")
            self._names[top] = (_names(changed), _names(untracked))
        return self._names[top]

    def _lines(self, top: str, name: str) -> tuple[tuple[int, int], ...] | None:
        literal = f":(literal){name}"
        options = ("-U0", "--no-color", "--no-ext-diff", "--no-textconv", "--no-renames", "--text")
        patch = _git(top, "diff", *options, self._commit(top), "--", literal)
        if b"\nnew file mode " in patch.partition(b"\n@@")[0]:
            return None
        return tuple(_span(int(start), int(count) if count else 1) for start, count in _HUNK.findall(patch))


def _span(start: int, count: int) -> tuple[int, int]:
    """Where lines were only taken out, the lines that now touch there are the changed ones."""
    return (start, start + 1) if count == 0 else (start, start + count - 1)


def _names(listed: bytes) -> frozenset[str]:
    return frozenset(listed.decode("utf-8", "surrogateescape").split("\0")) - {""}


def _git(folder: str, *words: str) -> bytes:
    command: Sequence[str] = ("git", "-C", folder or ".", *words)
    try:
        done = subprocess.run(command, capture_output=True, stdin=subprocess.DEVNULL, check=False)
    except FileNotFoundError:
        raise Trouble("--since needs git, which is not installed here") from None
    if done.returncode:
        told = done.stderr.decode("utf-8", "replace").strip().removeprefix("fatal: ")
        raise Trouble(f"git cannot say what has changed in {folder!r}: {told or 'no reason given'}")
    return done.stdout
