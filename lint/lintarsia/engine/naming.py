"""The files that name a given one (patterns their charts): what a change of that one alone can put wrong."""

import os
from collections.abc import Iterator, Sequence

from lintarsia.engine.subjects import subject_of
from lintarsia.engine.targets import Target
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.settings import Settings, SettingsFinder


def files_naming(targets: Sequence[Target], finder: SettingsFinder, gone: Sequence[str] = ()) -> list[Target]:
    """The files that name one of `targets` and are no targets yet, in the order of their paths.
    `gone` are the paths of files that are no more, and may be named still.

    They are looked for in the repository of each (`ground.bounds`), which is as far as the paths in a file may reach;
    hidden folders and links to folders are left out, and so is a file that its own settings exclude. One that is too
    broken to be read names nothing.
    """
    there = {os.path.realpath(target.path) for target in targets}
    named = {os.path.realpath(path): path for path in [*(target.path for target in targets), *gone]}
    found = {}
    for root in sorted({repository(path) for path in named.values()}):
        for full in _naming_below(root):
            if os.path.realpath(full) in there:
                continue
            settings = finder.for_folder(os.path.dirname(full))
            if settings.excludes(full):
                continue
            name = next((named[name] for name in named_in(full, settings) if name in named), None)
            if name is not None:
                path = full if os.path.isabs(name) and name not in gone else os.path.relpath(full)
                found[full] = Target(path, settings, os.path.getsize(full))
    return sorted(found.values(), key=lambda target: target.path)


def logs_beside(targets: Sequence[Target], finder: SettingsFinder) -> list[Target]:
    """Every log of a test knit in the repositories of `targets`, in the order of their paths; none that is excluded."""
    found = {}
    for root in sorted({repository(target.path) for target in targets}):
        for full in _naming_below(root):
            if kind_of(full) is Kind.KNIT:
                settings = finder.for_folder(os.path.dirname(full))
                if not settings.excludes(full):
                    found[full] = Target(os.path.relpath(full), settings, os.path.getsize(full))
    return [found[full] for full in sorted(found)]


def _naming_below(root: str) -> Iterator[str]:
    """The files of the kinds that name others."""
    for here, folders, names in os.walk(root):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if not kind_of(name).whole:
                yield os.path.join(here, name)


def named_in(file: str, settings: Settings) -> Iterator[str]:
    """Where the files that a file names really lie."""
    subject = subject_of(file, None, settings)
    subject.read()
    return map(os.path.realpath, subject.named())
