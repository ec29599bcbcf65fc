"""Files mended where they lie, or shown as they would be."""

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from lintarsia.engine.checking import shown
from lintarsia.engine.running import Stream
from lintarsia.engine.targets import Target, find_targets
from lintarsia.ground.kinds import Kind
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.mending.mend import Mended, mend
from lintarsia.mending.picking import fix_of
from lintarsia.reading.source import CannotRead, read_inside
from lintarsia.result import Fixed, Level, Result
from lintarsia.result.baseline import Mark
from lintarsia.settings import Settings, SettingsFinder

Accepted = Mapping[str, frozenset[Mark]]  # by file, as results name it: what baselines accept


@dataclass(frozen=True, slots=True)
class MendedFile:
    """A file's content before and after, and what was mended in between."""

    file: str
    old: bytes
    mended: Mended


def changes(
    paths: Sequence[str],
    results: Iterable[Result],
    *,
    settings: Settings | None = None,
    risky: bool = False,
    block: Level | None = None,
    accepted: Accepted | None = None,
    most_seconds: float | None = None,
    late: Callable[[str], None] | None = None,
) -> list[MendedFile]:
    """What mending would change in those files of `paths` of which a run has found `results` with fixes. A file whose
    mending takes more than `most_seconds` is left alone, and `late` is called with its name."""
    worth = {result.file for result in results if fix_of(result, risky=risky)}
    own = accepted or {}
    if not worth:
        return []
    targets = find_targets(paths, SettingsFinder(settings), tuple(Kind))
    known = ((target, shown(target.path)) for target in targets)
    work = [_Work(target, risky, block, own.get(name, frozenset())) for target, name in known if name in worth]
    if most_seconds is None:
        return [change for change in map(_change, work) if change is not None]
    from lintarsia.ground.deadlines import within

    def told(one: _Work) -> None:
        if late is not None:
            late(shown(one.target.path))

    return [change for change in within(most_seconds, _change, told, work) if change is not None]


def stream_change(
    stream: Stream,
    settings: Settings | None = None,
    *,
    risky: bool = False,
    block: Level | None = None,
    accepted: Accepted | None = None,
) -> list[MendedFile]:
    """What mending would change in a chart that is no file."""
    own = SettingsFinder(settings).for_folder(os.path.dirname(os.path.abspath(stream.name)))
    if own.excludes(os.path.abspath(stream.name)):
        return []
    held = (accepted or {}).get(shown(stream.name), frozenset())
    mended = mend(stream.name, stream.data, own, risky=risky, block=block, accepted=held)
    return [MendedFile(stream.name, stream.data, mended)] if mended.data != stream.data else []


class _Work(NamedTuple):
    """A file to be mended, and how."""

    target: Target
    risky: bool
    block: Level | None
    accepted: frozenset[Mark]


def _change(work: _Work) -> MendedFile | None:
    target = work.target
    try:
        old = read_inside(target.path, target.settings.max_bytes)
    except CannotRead:  # it was there a moment ago; the next check says what became of it
        return None
    mended = mend(target.path, old, target.settings, risky=work.risky, block=work.block, accepted=work.accepted)
    return MendedFile(target.path, old, mended) if mended.data != old else None


def write(found: Iterable[MendedFile]) -> tuple[tuple[Fixed, ...], tuple[str, ...]]:
    """Write each change, if the file still is as it was read: what was mended, and what stood in the way elsewhere.

    Two names of one file are written once.
    """
    fixed: list[Fixed] = []
    troubles: list[str] = []
    done: set[str] = set()
    for change in found:
        target = os.path.realpath(change.file)
        if target in done:
            continue
        try:
            replace_file(change.file, change.mended.data, expect=change.old)
        except Trouble as trouble:
            troubles.append(str(trouble))
        else:
            done.add(target)
            fixed += change.mended.fixed
    return tuple(fixed), tuple(troubles)
