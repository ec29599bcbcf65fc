"""What was released before under which version: by the record file that the settings name, else by git's tags."""

import os
from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.engine.git import git, names, top_of
from lintarsia.engine.past import Past
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.ground.scratch import scratch_folder
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.reading import read_pattern
from lintarsia.reading import read_document
from lintarsia.settings import Settings, SettingsFinder

MOST_TAGS = 50  # each has the pattern read as it was


class Released(NamedTuple):
    """A version that went out. `where` says who knows of it: `releases.yaml`, `the tag v1.0`."""

    version: str
    fingerprint: str
    where: str


def released(file: str, settings: Settings, finder: SettingsFinder, version: str) -> list[Released]:
    """The releases of a pattern, oldest first; by tags only that of `version`. Raises Trouble for a faulty record."""
    if settings.releases is not None:
        return list(_recorded(file, settings.releases))
    return list(_tagged(file, version, finder))


def _recorded(file: str, record: str) -> Iterator[Released]:
    if not os.path.lexists(record):
        return
    name = name_in(file, record)
    for entry in entries_in(record):
        if entry["pattern"] == name:
            yield Released(str(entry["version"]), str(entry["fingerprint"]), os.path.basename(record))


def entries_in(record: str, data: bytes | None = None) -> list[dict[str, str]]:
    """What a record lists, or `data` in its place. Raises Trouble for a faulty one, with the first fault's place."""
    document = read_document(record, data, schema="releases.schema.json")
    for _, finding in document.sorted_problems():
        place = f"{os.path.relpath(record)}:{finding.region.line}:{finding.region.column}"
        raise Trouble(f"{place}: {finding.message}")
    return [{key: str(value) for key, value in entry.items()} for entry in (document.data or {}).get("releases") or ()]


def name_in(file: str, record: str) -> str:
    """The pattern as its record names it: from the record's folder."""
    folder = os.path.dirname(os.path.realpath(record))
    return os.path.relpath(os.path.realpath(file), folder).replace(os.sep, "/")


def _tagged(file: str, version: str, finder: SettingsFinder) -> Iterator[Released]:
    if not version or not os.path.lexists(os.path.join(repository(file), ".git")):
        return
    top = top_of(os.path.dirname(os.path.realpath(file)))
    stem = os.path.basename(file).removesuffix(Kind.PATTERN.suffix)
    meant = {f"{before}{v}{version}" for before in ("", f"{stem}-", f"{stem}/") for v in ("", "v")}
    known = [tag for tag in names(git(top, "tag", "--list").replace(b"\n", b"\0")) if tag in meant]
    for tag in known[:MOST_TAGS]:
        with scratch_folder() as scratch:
            past = Past(top, f"refs/tags/{tag}", os.path.realpath(scratch), finder)
            target = past.target(os.path.realpath(file))
            pattern = None if target is None else read_pattern(target.path).pattern
            if target is not None and pattern is not None and pattern.version == version:
                yield Released(version, pattern_fingerprint(work_on(pattern, target.settings)), f"the tag {tag}")
