"""From a path to the file's text: size, kind, encoding. Whatever stands in the way becomes one finding."""

import os
import re
import stat
from bisect import bisect_right
from collections.abc import Callable
from contextlib import suppress
from itertools import accumulate

from lintarsia.ground.bounds import leads_out
from lintarsia.ground.leftout import is_left_out
from lintarsia.result import NOWHERE, Finding, Region

MAX_BYTES = 4 * 2**20

# How the content of a file is come by: from the disk, or from whoever has it open. Raises CannotRead.
Read = Callable[[str], bytes]

# What YAML lets stand in a file, less three that YAML takes for line breaks and editors do not (U+0085, U+2028,
# U+2029): without them every program agrees where line 14 is.
_FORBIDDEN = "[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
_PLAIN_BYTES = bytes(range(0x20, 0x7F)) + b"\t\n\r"
_BREAK = re.compile("\r\n|\n|\r")


class CannotRead(Exception):  # noqa: N818 - it becomes a result; no user ever sees it raised
    """Why a file cannot be read, as the finding to report."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


def cannot_read(key: str, message: str, region: Region = NOWHERE, remedy: str | None = None) -> CannotRead:
    return CannotRead(Finding(key, message, region, remedy=remedy))


def read_bytes(path: str, max_bytes: int) -> bytes:
    """The bytes of a regular file. Raises CannotRead for anything else, and never waits on a pipe or a device."""
    if is_left_out(path):
        raise cannot_read("missing", "this file is here, and no part of the commit")
    try:
        # O_NONBLOCK: opening a named pipe that nobody writes to would otherwise wait for ever.
        descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        try:
            return _read_all(descriptor, max_bytes)
        finally:
            os.close(descriptor)
    except (OSError, ValueError) as error:
        raise _refused(path, error) from None


def read_inside(path: str, max_bytes: int) -> bytes:
    """As `read_bytes`, for a file of a repository. Raises CannotRead for a name that leads out of it by a link."""
    with suppress(ValueError):  # no name of a file: told below
        if leads_out(path) and os.path.isfile(path):  # of all else is told what it is
            message = "this name leads out of the repository by a symbolic link; charts are read inside it alone"
            raise cannot_read("outside", message, remedy=_WITHIN)
    return read_bytes(path, max_bytes)


_WITHIN = "put the file itself here; outside repositories, a lintarsia.yaml in a folder above both lets the link stand"


def _read_all(descriptor: int, max_bytes: int) -> bytes:
    kind = os.fstat(descriptor)
    if stat.S_ISDIR(kind.st_mode):
        raise cannot_read("directory", "this is a folder; expected a file")
    if not stat.S_ISREG(kind.st_mode):
        raise cannot_read("not-a-file", "this is a pipe or a device; expected a file")
    _check_size(kind.st_size, max_bytes)
    data = os.read(descriptor, kind.st_size + 1)
    if len(data) == kind.st_size:
        return data
    while len(data) <= max_bytes and (more := os.read(descriptor, max_bytes + 1 - len(data))):
        data += more  # the file is growing, or lies where reads come in pieces
    return data


def _refused(path: str, error: OSError | ValueError) -> CannotRead:
    if isinstance(error, ValueError):
        return cannot_read("missing", "this is not a file name; it has a character that no file name can have")
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        link = " (it is a link to something that is gone)" if os.path.islink(path) else ""
        return cannot_read("missing", f"there is no such file{link}")
    if isinstance(error, IsADirectoryError) or os.path.isdir(path):
        return cannot_read("directory", "this is a folder; expected a file")
    reason = (error.strerror or str(error)).lower()
    return cannot_read("not-readable", f"the file cannot be read: {reason}")


def _check_size(size: int, max_bytes: int) -> None:
    if size > max_bytes:
        raise cannot_read(
            "too-large",
            f"the file has {size:,} bytes; at most {max_bytes:,} are read",
            remedy="check that this is a chart; if it is, raise max-size in the settings",
        )


def decode(data: bytes, max_bytes: int) -> str:
    """The text of a chart file, without its byte-order mark. Raises CannotRead at the first byte that is not text."""
    _check_size(len(data), max_bytes)
    if data.startswith(b"\xef\xbb\xbf"):
        data = data[3:]  # harmless, and no column counts it
    if not data.translate(None, _PLAIN_BYTES):  # nothing but ordinary ASCII: by far the usual file
        return data.decode("ascii")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\0" in data[:4]:
        raise cannot_read(
            "not-utf-8", "the text is UTF-16 or UTF-32, or no text at all; expected UTF-8", remedy=_SAVE_AS
        )
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8")
        region = place(before, len(before))
        raise cannot_read(
            "not-utf-8", f"byte 0x{data[error.start]:02x} is not UTF-8; expected UTF-8 text", region, _SAVE_AS
        ) from None
    found = re.search(_FORBIDDEN, text)  # compiled here: it takes 5 ms, and few files get this far
    if found:
        raise cannot_read(
            "control-character",
            f"the character U+{ord(found[0]):04X} cannot stand in a chart file; expected plain text",
            place(text, found.start()),
            remedy="delete the character",
        )
    return text


_SAVE_AS = "save the file again as UTF-8"


def place(text: str, index: int) -> Region:
    """The region of the one character at `index`."""
    line, start = 1, 0
    for line_break in _BREAK.finditer(text, 0, index):
        line, start = line + 1, line_break.end()
    column = index - start + 1
    return Region(line, column, line, column + 1)


def split_lines(text: str) -> list[str]:
    """The lines of a decoded text without their breaks, split exactly where YAML counts a line."""
    if "\r" in text:
        return _BREAK.split(text)
    return text.split("\n")


class Lines:
    """Places in a decoded text: index from 0 to line and column from 1, and back."""

    def __init__(self, text: str) -> None:
        if "\r" in text:
            self._starts = [0, *(line_break.end() for line_break in _BREAK.finditer(text))]
        else:
            self._starts = list(accumulate((len(line) + 1 for line in text.split("\n")[:-1]), initial=0))
        self._length = len(text)

    def index(self, line: int, column: int) -> int:
        """The index of a place; ValueError where the text has no such line or column."""
        if not 1 <= line <= len(self._starts) or column < 1:
            raise ValueError(f"the text has no line {line}, column {column}")
        index = self._starts[line - 1] + column - 1
        if index > self._length or (line < len(self._starts) and index >= self._starts[line]):
            raise ValueError(f"line {line} has no column {column}")
        return index

    def position(self, index: int) -> tuple[int, int]:
        """Line and column of an index."""
        line = bisect_right(self._starts, index)
        return line, index - self._starts[line - 1] + 1
