"""Files mended where they lie, or shown as they would be."""

import os
from collections.abc import Iterable, Sequence

from lintarsia.engine.checking import shown
from lintarsia.engine.running import Stream
from lintarsia.engine.targets import Target, find_targets
from lintarsia.ground.kinds import Kind
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.mending.choosing import fix_of
from lintarsia.mending.mend import Mended, mend
from lintarsia.reading.source import Unreadable, read_inside
from lintarsia.result import Fixed, Level, Result
from lintarsia.settings import Settings, SettingsFinder


@dataclass(frozen=True, slots=True)
class Change:
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
) -> list[Change]:
    """What mending would change in those files of `paths` of which a run has found `results` with fixes."""
    worth = {result.file for result in results if fix_of(result, risky=risky)}
    if not worth:
        return []
    targets = find_targets(paths, SettingsFinder(settings), tuple(Kind))
    found = (_change(target, risky, block) for target in targets if shown(target.path) in worth)
    return [change for change in found if change is not None]


def stream_change(
    stream: Stream, settings: Settings | None = None, *, risky: bool = False, block: Level | None = None
) -> list[Change]:
    """What mending would change in a chart that is no file."""
    own = SettingsFinder(settings).for_folder(os.path.dirname(os.path.abspath(stream.name)))
    if own.excludes(os.path.abspath(stream.name)):
        return []
    mended = mend(stream.name, stream.data, own, risky=risky, block=block)
    return [Change(stream.name, stream.data, mended)] if mended.data != stream.data else []


def _change(target: Target, risky: bool, block: Level | None) -> Change | None:
    try:
        old = read_inside(target.path, target.settings.max_bytes)
    except Unreadable:  # it was there a moment ago; the next check says what became of it
        return None
    mended = mend(target.path, old, target.settings, risky=risky, block=block)
    return Change(target.path, old, mended) if mended.data != old else None


def write(found: Iterable[Change]) -> tuple[tuple[Fixed, ...], tuple[str, ...]]:
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
