"""A release held against those before it: results of the rules on releases, and the line for the record."""

import os
from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime

from lintarsia.engine.checking import shown
from lintarsia.engine.completing import results_on
from lintarsia.engine.recording import record
from lintarsia.engine.released import Released, released
from lintarsia.engine.revision import Revision, revision_of
from lintarsia.engine.subjects import Found
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.card import Card
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.work import PatternWork
from lintarsia.result import NOWHERE, Finding, Result
from lintarsia.settings import Settings, SettingsFinder

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


def release_results(
    work: PatternWork, before: Sequence[Released], revisions: Mapping[str, Revision | None], settings: Settings
) -> tuple[Result, ...]:
    """With the levels that the settings give the rules."""
    file = work.pattern.path
    return results_on(file, [*_other_content(work, before), *_uncommitted(revisions)], settings)


def _other_content(work: PatternWork, before: Sequence[Released]) -> Iterator[Found]:
    pattern, mark = work.pattern, pattern_fingerprint(work)
    same = [one for one in before if one.version == pattern.version]
    if pattern.version and same and all(one.fingerprint != mark for one in same):
        last = same[-1]
        message = (
            f"version {pattern.version} was released with other content ({last.where}: {last.fingerprint}; now {mark})"
        )
        yield Found(OTHER, Finding("other-content", message, pattern.places.value("version")))


def _uncommitted(revisions: Mapping[str, Revision | None]) -> Iterator[Found]:
    for path, found in revisions.items():
        if found is not None and not found.clean:
            message = f"the file is not what commit {found.commit} has"
            yield Found(UNCOMMITTED, Finding("uncommitted", message, NOWHERE, file=shown(path)))


def last_other(work: PatternWork, before: Sequence[Released]) -> str:
    """The last version that went out, where it had other content than now; "" else."""
    last = before[-1] if before else None
    if last is None or last.version == work.pattern.version or last.fingerprint == pattern_fingerprint(work):
        return ""
    return last.version
