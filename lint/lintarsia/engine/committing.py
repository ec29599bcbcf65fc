"""What a commit takes away, which the programs that run hooks before it do not name."""

import os
from collections.abc import Mapping, Sequence

from lintarsia.engine.git import commit_of, git, names, top_of
from lintarsia.settings import SETTINGS_NAME

# Set by pre-commit where it looks at commits that are made already: before a push, and in CI.
FROM, TO = "PRE_COMMIT_FROM_REF", "PRE_COMMIT_TO_REF"


def taken_away(environ: Mapping[str, str]) -> list[str]:
    """The absolute paths of files that are no more once the commit is made, or have another name by then.

    Of the repository of the current folder; raises Trouble where there is none. A file that the commit takes away and
    leaves where it is (`git rm --cached`) is one of them.
    """
    top = top_of(os.curdir)
    told = ("--name-only", "--no-renames", "--diff-filter=D", "-z", "--no-ext-diff", "--no-relative")
    if environ.get(FROM) and environ.get(TO):
        ends = (_start(top, environ[FROM], environ[TO]), commit_of(top, environ[TO]))
        listed = git(top, "diff", *told, *ends, "--")
    else:
        listed = git(top, "diff", "--cached", *told, "--")
    return [os.path.join(top, name) for name in names(listed)]


def left_lying(gone: Sequence[str]) -> list[str]:
    """Those files that are there all the same. Where upper and lower case are one, another case is another file."""
    return [path for path in gone if os.path.lexists(path) and os.path.basename(path) in _names(os.path.dirname(path))]


def _names(folder: str) -> list[str]:
    try:
        return os.listdir(folder)
    except OSError:
        return []


def _start(top: str, first: str, last: str) -> str:
    """Where the commits begin: at the one that both ends share, or, in a clone cut short, at the first end itself."""
    shared = git(top, "merge-base", commit_of(top, first), commit_of(top, last), fine=(0, 1))
    return shared.decode("ascii").strip() or commit_of(top, first)


def unsettled(gone: Sequence[str]) -> list[str]:
    """The folders whose settings are gone: other settings hold for their charts now."""
    folders = (os.path.dirname(path) for path in gone if os.path.basename(path) == SETTINGS_NAME)
    return [os.path.relpath(folder) for folder in folders if os.path.isdir(folder)]
