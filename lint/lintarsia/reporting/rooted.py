"""A report whose files are named from the top of the repository, as programs that lay results beside lines want them.

A job may well run in a folder below; people stand where they stand, and read names from there.
"""

import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from lintarsia.result import Report, Result

# Formats that such programs read. JSON answers to whoever runs the command, and keeps the names of the text.
FROM_THE_TOP = frozenset({"github", "gitlab", "junit", "sarif"})

# Where a checkout without `.git` begins, as the CI systems say that read these formats.
VARIABLES = ("GITHUB_WORKSPACE", "CI_PROJECT_DIR")


def top_of(folder: str, environ: Mapping[str, str]) -> str:
    """The top of the repository that `folder` (absolute) lies in; else of what CI has fetched; else `folder`."""
    at = folder
    while True:
        if os.path.lexists(os.path.join(at, ".git")):
            return at
        above = os.path.dirname(at)
        if above == at:
            break
        at = above
    fetched = (os.path.realpath(environ[name]) for name in VARIABLES if environ.get(name))
    return next((top for top in fetched if _below(folder, top) is not None), folder)


def rooted(report: Report, folder: str, environ: Mapping[str, str]) -> Report:
    """The report of a run in `folder`, with each file named from the top, or by its whole path where it is outside."""
    top = top_of(folder, environ)
    named = _naming(folder, top)
    return replace(
        report,
        results=_renamed(report.results, named),
        files=tuple(map(named, report.files)),
        blocking_of={named(file): level for file, level in report.blocking_of.items()},
        root=top,
    )


def _renamed(results: Sequence[Result], named: Callable[[str], str]) -> Sequence[Result]:
    if isinstance(results, tuple):
        return tuple(replace(result, file=named(result.file)) for result in results)
    from lintarsia.result.aside import Renamed  # very many, which are never held

    return Renamed(results, named)


def _naming(folder: str, top: str) -> Callable[[str], str]:
    known: dict[str, str] = {}

    def named(file: str) -> str:
        if file not in known:
            known[file] = _named(os.path.normpath(os.path.join(folder, file)), top).replace(os.sep, "/")
        return known[file]

    return named


def _named(path: str, top: str) -> str:
    below = _below(path, top)
    if below is None:  # named by way of a link, as some systems name their temporary folders
        near = os.path.join(os.path.realpath(os.path.dirname(path)), os.path.basename(path))
        below = _below(near, top)
    return path if below is None else below


def _below(path: str, top: str) -> str | None:
    if path == top:
        return os.curdir
    inside = top.rstrip(os.sep) + os.sep
    return path[len(inside) :] if path.startswith(inside) else None
