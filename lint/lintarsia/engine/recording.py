"""A release written into the record that the settings name: a line more, which is read back before it stands."""

import json
import os
import re
from collections.abc import Iterator

from lintarsia.engine.released import entries_in, name_in
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.settings import Settings

HEAD = b"lintarsia-releases: 1\nreleases:\n"
_DASH = re.compile(r"^( *)- ", re.MULTILINE)
_NONE_YET = re.compile(r"^releases: *\[ *\]", re.MULTILINE)


def record(file: str, settings: Settings, entry: dict[str, str]) -> str:
    """Add a release to the record; the path of the record. Entries that stand there stay as they are.

    Raises Trouble where the settings name none, where it cannot be written, and where nothing can be added to it as it
    is laid out.
    """
    path = settings.releases
    if path is None:
        raise Trouble(
            "the settings name no file to record releases in; expected a line such as `releases: releases.yaml`"
        )
    old = _standing(path)
    said = {"pattern": name_in(file, path), **{key: value for key, value in entry.items() if value}}
    line = "{" + ", ".join(f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in said.items()) + "}"
    before = entries_in(path, old or HEAD)
    for made in _with_line((old or HEAD).decode("utf-8"), line):
        if _lists(path, made.encode(), [*before, said]):
            replace_file(path, made.encode(), expect=old)
            return path
    raise Trouble(f"nothing can be added to {os.path.relpath(path)!r} as it is laid out; add this to its list: {line}")


def _standing(path: str) -> bytes | None:
    try:
        with open(path, "rb") as stream:
            return stream.read()
    except FileNotFoundError:
        return None
    except OSError as failure:
        raise Trouble(f"{path!r} cannot be read ({failure})") from None


def _with_line(text: str, line: str) -> Iterator[str]:
    """The text with the line at its end, as far in as the entries above; after a list that says it is empty, too."""
    end = "\r\n" if "\r\n" in text else "\n"
    whole = text if text.endswith("\n") else text + end
    indent = (_DASH.findall(text) or ["  "])[-1]
    for before in (whole, _NONE_YET.sub("releases:", whole)):
        yield f"{before}{indent}- {line}{end}"


def _lists(path: str, data: bytes, wanted: list[dict[str, str]]) -> bool:
    try:
        return entries_in(path, data) == wanted
    except Trouble:
        return False
