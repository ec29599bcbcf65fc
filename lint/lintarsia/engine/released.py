"""What was released before under which version: by the record file that the settings name, else by git's tags."""

import os
from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.engine.git import git, names, top_of
from lintarsia.engine.past import Past
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.scratch import scratch_folder
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.reading import read_pattern
from lintarsia.reading import read_document
from lintarsia.settings import Settings, SettingsFinder

HEAD = "lintarsia-releases: 1\nreleases:\n"
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
    document = read_document(record, schema="releases.schema.json")
    for _, finding in document.sorted_problems():
        place = f"{os.path.relpath(record)}:{finding.region.line}:{finding.region.column}"
        raise Trouble(f"{place}: {finding.message}")
    name = _name_in(file, record)
    for entry in (document.data or {}).get("releases") or ():
        if entry["pattern"] == name:
            yield Released(str(entry["version"]), str(entry["fingerprint"]), os.path.basename(record))


def _name_in(file: str, record: str) -> str:
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


def record(file: str, settings: Settings, entry: dict[str, str]) -> str:
    """Add a release to the record; the path of the record. Entries that stand there stay as they are.

    Raises Trouble where the settings name none, or it cannot be written.
    """
    import json

    if settings.releases is None:
        raise Trouble(
            "the settings name no file to record releases in; expected a line such as `releases: releases.yaml`"
        )
    try:
        with open(settings.releases, encoding="utf-8", newline="") as old:
            text = old.read()
    except FileNotFoundError:
        text = HEAD
    except (OSError, UnicodeDecodeError) as failure:
        raise Trouble(f"{settings.releases!r} cannot be read ({failure})") from None
    said = {"pattern": _name_in(file, settings.releases), **entry}
    line = ", ".join(f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in said.items() if value)
    text += "" if text.endswith("\n") else "\n"
    replace_file(settings.releases, f"{text}  - {{{line}}}\n".encode())
    return settings.releases
