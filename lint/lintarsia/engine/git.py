"""What git is asked, and how it answers: bytes, or a Trouble that says in what folder and why not."""

import os
import subprocess
from collections.abc import Mapping

from lintarsia.ground.trouble import Trouble

QUIET = ("--no-optional-locks", "-c", "core.fsmonitor=false")  # for what is only looked up, beside others' work


def git(
    folder: str, *words: str, also: Mapping[str, str] | None = None, data: bytes = b"", fine: tuple[int, ...] = (0,)
) -> bytes:
    """What a git command prints. `also` joins the environment, `data` is its standard input.

    Raises Trouble where git is not there, or ends with a status that is not among those that are `fine`.
    """
    environ = {**os.environ, **also} if also else None
    try:
        done = subprocess.run(["git", "-C", folder or ".", *words], input=data, capture_output=True, env=environ)
    except FileNotFoundError:
        raise Trouble("this needs git, which is not installed here") from None
    if done.returncode not in fine:
        told = done.stderr.decode("utf-8", "replace").strip().removeprefix("fatal: ")
        raise Trouble(f"git cannot say what has changed in {folder!r}: {told or 'no reason given'}")
    return done.stdout


def changed_names(top: str) -> list[str]:
    """The files of a work tree that differ from the commit that is checked out, by their names from its top. Those that
    git does not know are none of them. Raises Trouble."""
    return names(git(top, *QUIET, "diff", "--name-only", "--no-renames", "--no-ext-diff", "-z", "HEAD", "--"))


def committed_names(top: str, folder: str) -> list[str]:
    """What the commit that is checked out has right in a folder (named from the work tree's top, "" for that), by names
    from the top. Raises Trouble."""
    where = ("--", f"{folder}/") if folder else ()
    return names(git(top, *QUIET, "--literal-pathspecs", "ls-tree", "-z", "--name-only", "HEAD", *where))


def names(listed: bytes) -> list[str]:
    """A list as `-z` prints it."""
    return [name for name in listed.decode("utf-8", "surrogateescape").split("\0") if name]


def top_of(folder: str) -> str:
    """The top folder of the work tree that `folder` lies in."""
    shown = git(folder, "rev-parse", "--show-toplevel").decode("utf-8", "surrogateescape")
    return os.path.realpath(shown.rstrip("\n"))


def commit_of(top: str, revision: str) -> str:
    """The full name of the commit that `revision` means; for `A...B` that from which A and B have parted.

    An end that is left out is the commit that is checked out. Raises Trouble for what git does not know.
    """
    found = _commit(top, revision)
    if found is not None:
        return found
    one, dots, other = revision.partition("...")
    if not dots:
        hint = "; expected one revision, or A...B" if ".." in revision else ""
        raise Trouble(f"git knows no revision {revision!r} in {top!r}{hint}")
    ends = []
    for end in (one or "HEAD", other or "HEAD"):
        found = _commit(top, end)
        if found is None:
            raise Trouble(f"git knows no revision {end!r} in {top!r}")
        ends.append(found)
    base = git(top, "merge-base", *ends, fine=(0, 1)).decode("ascii").strip()
    if not base:
        # A shallow clone, the usual one in CI, does not reach back to where they parted.
        raise Trouble(f"git finds nothing that {one or 'HEAD'} and {other or 'HEAD'} share; fetch more of the history")
    return base


def _commit(top: str, revision: str) -> str | None:
    asked = ("rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}")
    try:
        return git(top, *asked).decode("ascii").strip() or None
    except (Trouble, ValueError):  # ValueError: no program can be given NUL
        return None
