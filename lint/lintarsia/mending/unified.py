"""What mending would change, as a unified diff."""

import difflib
import re
from collections.abc import Iterator, Sequence

from lintarsia.engine.checking import shown
from lintarsia.mending.files import MendedFile
from lintarsia.reading.applying import parted

_LINE = re.compile("[^\r\n]*(?:\r\n|\n|\r)|[^\r\n]+")
NO_END = "\n\\ No newline at end of file\n"


def diff(found: Sequence[MendedFile]) -> str:
    """One diff of all files, which the usual tools apply to files whose lines end in LF or CRLF."""
    return "".join("".join(_one(change)) for change in found)


def _one(change: MendedFile) -> Iterator[str]:
    name = shown(change.file)
    (mark, old), (_, new) = parted(change.old), parted(change.mended.data)
    start = mark.decode("utf-8")
    before, after = _LINE.findall(start + old), _LINE.findall(start + new)
    for line in difflib.unified_diff(before, after, name, name):
        yield line if line.endswith("\n") else line + ("\n" if line.endswith("\r") else NO_END)
