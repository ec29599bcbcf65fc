"""The release card of a pattern: the pattern and all its charts checked in one run, and what came of it on one page."""

import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime

from lintarsia.engine.checking import shown
from lintarsia.engine.released import Released, record, released
from lintarsia.engine.revision import Revision, Revisions, revision_of
from lintarsia.engine.running import check_paths
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.card import Card, make_card
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.result import NOWHERE, Finding, Level, Region, Report, Result
from lintarsia.rules.rulebook import house_rulebook
from lintarsia.settings import Settings, SettingsFinder


class Unpublishable(Exception):  # noqa: N818 - the user is told of it, and it is no error of ours
    """The file holds no pattern of which a card could be made. `problems` are (rule name, finding)."""

    def __init__(self, problems: tuple[tuple[str, Finding], ...]) -> None:
        super().__init__("no pattern")
        self.problems = problems


def release_card(file: str, settings: Settings | None = None, block: Level | None = None) -> Card:
    """Check a pattern and its charts and gather the card. `settings` hold for all of them where given.

    Raises Unpublishable where the file holds no pieces, and Trouble where the run cannot be made.
    """
    file = _from_here(file)
    finder = SettingsFinder(settings)
    own = finder.for_folder(os.path.dirname(os.path.abspath(file)))
    reading = read_pattern(file, max_bytes=own.max_bytes)
    if reading.pattern is None:
        raise Unpublishable(reading.problems)
    work = work_on(reading.pattern, own)
    charts = [chart.path for chart in work.charts.values() if chart.key not in ("outside", "not-there")]
    report: Report = check_paths([file, *charts], settings=settings, block=block)
    holding = [(path, finder.for_folder(os.path.dirname(os.path.abspath(path)))) for path in (file, *charts)]
    ran = {rule.name for path, held in holding for rule in held.armed(os.path.abspath(path)).checks}
    asked = Revisions()
    revisions = {path: asked.of(path) for path in (file, *charts)}
    before = released(file, own, finder, work.pattern.version)
    mine = [*_other_content(work, before), *_uncommitted(revisions)]
    report = replace(report, results=tuple(sorted([*report.results, *mine], key=lambda result: result.order)))
    looked = ran | {"file/schema", "file/unreadable"} | ({OTHER} if before else set())
    looked |= {UNCOMMITTED} if any(revisions.values()) else set()
    words = {path: found.words for path, found in revisions.items() if found}
    return make_card(work, report, looked, list(_off(holding)), revisions=words, before=_last_other(work, before))


OTHER, UNCOMMITTED = "release/other-content", "release/uncommitted"


def record_release(card: Card, settings: Settings | None, notes: str) -> str:
    """Write the release that the card is of into the record that the settings name; what was done, in words.

    Raises Trouble where it cannot be recorded: without a version, or without a line that says what has changed.
    """
    own = settings or SettingsFinder().for_folder(os.path.dirname(os.path.abspath(card.file)))
    if not card.version:
        raise Trouble(f'{card.file} states no version to be released; expected a line such as version: "1.0"')
    known = released(card.file, own, SettingsFinder(settings), card.version) if own.releases else []
    if any(one.version == card.version for one in known):
        return f"{card.title}, version {card.version}, is recorded already"
    if card.before and not notes.strip():
        raise Trouble(f"what a knitter reads has changed since version {card.before}; say what in a line: --notes TEXT")
    revision = revision_of(card.file)
    entry = {
        "version": card.version,
        "fingerprint": card.fingerprint,
        "date": datetime.now(UTC).date().isoformat(),
        "commit": revision.commit if revision and revision.clean else "",
        "notes": " ".join(notes.split()),
    }
    return f"recorded in {os.path.relpath(record(card.file, own, entry))}"


def _other_content(work: PatternWork, before: Sequence[Released]) -> Iterator[Result]:
    pattern, mark = work.pattern, pattern_fingerprint(work)
    same = [one for one in before if one.version == pattern.version]
    if pattern.version and same and all(one.fingerprint != mark for one in same):
        message = (
            f"version {pattern.version} was released with other content ({same[-1].where}: {same[-1].fingerprint}; "
            f"now {mark})"
        )
        yield _result(OTHER, "other-content", message, pattern.path, pattern.places.value("version"))


def _uncommitted(revisions: Mapping[str, Revision | None]) -> Iterator[Result]:
    for path, found in revisions.items():
        if found is not None and not found.clean:
            message = f"the file is not what commit {found.commit} has"
            yield _result(UNCOMMITTED, "uncommitted", message, path, NOWHERE)


def _result(rule: str, key: str, message: str, file: str, region: Region) -> Result:
    info = house_rulebook().info(rule)
    return Result(rule, key, info.level, message, shown(file), region, remedy=info.remedy)


def _last_other(work: PatternWork, before: Sequence[Released]) -> str:
    """The last version that went out, where it had other content than now; "" else."""
    last = before[-1] if before else None
    if last is None or last.version == work.pattern.version or last.fingerprint == pattern_fingerprint(work):
        return ""
    return last.version


def _from_here(file: str) -> str:
    """The way from the current folder, which is what goes on a card: an absolute path tells of a disk."""
    try:
        return os.path.relpath(file) if os.path.isabs(file) else file
    except ValueError:  # on another drive
        return file


def _off(holding: Iterable[tuple[str, Settings]]) -> Iterable[str]:
    names: set[str] = set()
    for path, held in holding:
        levels = held.armed(os.path.abspath(path)).levels
        names.update(name for name, level in levels.items() if level is Level.OFF)
    return names
