"""Which file is compared with which: two files, or the files of two states of a repository, renamed ones followed."""

import os
from collections.abc import Iterator, Sequence
from contextlib import ExitStack

from lintarsia.engine.differing import between
from lintarsia.engine.git import top_of
from lintarsia.engine.past import Past
from lintarsia.engine.shown import shown
from lintarsia.engine.since import Since
from lintarsia.engine.targets import Target, find_targets, refuse_others
from lintarsia.ground.kinds import KNITTED_FROM, kind_of
from lintarsia.ground.scratch import scratch_folder
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.settings import SettingsFinder

WORKING_TREE = "working tree"
ENDINGS = tuple(kind.suffix for kind in KNITTED_FROM)


@dataclass(frozen=True, slots=True)
class FilePair:
    """A file in both states; None where it is not there. The names are those that people know, wherever copies lie."""

    was: Target | None
    now: Target | None
    was_name: str
    now_name: str
    same: bool = False  # nothing that is read for it differs


class Pairing:
    """Holds the copies of old states while they are compared: a context."""

    def __init__(self, paths: Sequence[str], old: str, new: str | None, finder: SettingsFinder) -> None:
        self._paths, self._old, self._new, self._finder = paths, old, new, finder
        self._held = ExitStack()

    def __enter__(self) -> "Pairing":
        return self

    def __exit__(self, *_: object) -> None:
        self._held.close()

    def pairs(self) -> list[FilePair]:
        """In the order of the names of now. Raises Trouble where git, or a path, is not there."""
        refuse_others(self._paths, KNITTED_FROM)
        if os.path.isfile(self._old):
            return [self._two_files()]
        found = list(self._with_tree() if self._new is None else self._of_commits(self._new))
        return sorted(found, key=lambda pair: (pair.now_name or pair.was_name, pair.was_name))

    def _two_files(self) -> FilePair:
        if len(self._paths) != 1 or not os.path.isfile(self._paths[0]):
            raise Trouble("a file is compared with one other file; expected lintarsia compare NEW --from OLD")
        if self._new is not None:
            raise Trouble("--to names a revision, which goes with a revision after --from; found a file there")
        was, now = (self._single(path) for path in (self._old, self._paths[0]))
        if kind_of(was.path) is not kind_of(now.path):
            kinds = " and ".join(f"{shown(one.path)} is a {kind_of(one.path)}" for one in (was, now))
            raise Trouble(f"a chart is compared with a chart, and a pattern with a pattern; {kinds}")
        return FilePair(was, now, shown(was.path), shown(now.path))

    def _single(self, path: str) -> Target:
        refuse_others([path], KNITTED_FROM)
        found = find_targets([path], self._finder, KNITTED_FROM)
        if not found:
            raise Trouble(f"the settings exclude {shown(path)}")
        return found[0]

    def _scratch(self) -> str:
        return os.path.realpath(self._held.enter_context(scratch_folder()))

    def _with_tree(self) -> Iterator[FilePair]:
        since = Since(self._old, self._finder, self._scratch())
        pasts: dict[int, Past] = {}
        for target in find_targets(self._paths, self._finder, KNITTED_FROM):
            past, full = since.past(target.path), _full(target.path)
            pasts[id(past)] = past
            was = past.target(full)
            name = past.name(full)
            then = past.difference.moved.get(name, name)
            moved = "" if was is None else shown(target.path) if then == name else self._named(past, then)
            yield FilePair(was, target, moved, shown(target.path), was is not None and not past.concerns(full))
        for path in self._paths:
            past = since.past(os.path.join(path, "any") if os.path.isdir(path) else path)
            pasts[id(past)] = past
        for past in pasts.values():
            yield from self._gone(past, past.difference.gone - set(past.difference.moved.values()))

    def _of_commits(self, new: str) -> Iterator[FilePair]:
        for top in dict.fromkeys(top_of(_folder(path)) for path in self._paths):
            old, late = (Past(top, name, self._scratch(), self._finder) for name in (self._old, new))
            difference = between(top, old.commit, late.commit)
            moved = difference.moved
            for name in late.files():
                if name.endswith(ENDINGS) and self._asked(late, name):
                    then = moved.get(name, name)
                    was, now = old.named(then), late.named(name)
                    told = self._named(late, name)
                    if was or now:
                        same = was is not None and now is not None and not difference.concerns(name)
                        yield FilePair(was, now, self._named(late, then) if was else "", told if now else "", same)
            late_names = set(late.files())
            yield from self._gone(old, set(old.files()) - late_names - set(moved.values()))

    def _gone(self, past: Past, names: set[str] | frozenset[str]) -> Iterator[FilePair]:
        for name in sorted(names):
            if name.endswith(ENDINGS) and self._asked(past, name):
                was = past.named(name)
                if was is not None:
                    yield FilePair(was, None, self._named(past, name), "")

    def _asked(self, past: Past, name: str) -> bool:
        """Whether a file of the repository lies in one of the paths."""
        full = os.path.join(past.top, name)
        roots = [_full(path) for path in self._paths]
        return any(full == root or full.startswith(root.rstrip(os.sep) + os.sep) for root in roots)

    def _named(self, past: Past, name: str) -> str:
        """A name from the top of the repository as paths are told: from the current folder, where it lies below it."""
        told = os.path.relpath(os.path.join(past.top, name), os.path.realpath(os.curdir))
        return shown(told if not told.startswith(os.pardir) else name)


def _full(path: str) -> str:
    """The absolute path, links of folders followed."""
    if os.path.isdir(path):
        return os.path.realpath(path)
    return os.path.join(os.path.realpath(os.path.dirname(os.path.abspath(path))), os.path.basename(path))


def _folder(path: str) -> str:
    """The nearest folder that is there now."""
    folder = os.path.abspath(path)
    while not os.path.isdir(folder):
        folder = os.path.dirname(folder)
    return folder
