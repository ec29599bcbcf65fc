"""Where a command's words go: standard output as UTF-8 where it can, and files written beside and then renamed."""

import os
import shutil
import sys
from collections.abc import Iterable, Iterator
from typing import TextIO

from lintarsia.cli.exits import PIPE_CLOSED
from lintarsia.ground.kinds import Kind
from lintarsia.ground.trouble import Trouble
from lintarsia.reporting.screen import Screen, look_at_screen

PIECE = 2**20  # characters


def screen_of(stream: TextIO, colour: str) -> Screen:
    """The screen behind a text stream; `colour` is auto, always or never."""
    return look_at_screen(
        tty=stream.isatty(),
        encoding=stream.encoding or "ascii",
        width=shutil.get_terminal_size().columns,
        when=colour,
        environ=os.environ,
    )


def write_stdout(text: str) -> None:
    """Write text as it is; what the stream's encoding lacks comes out as `?` rather than as a failure."""
    encoding = sys.stdout.encoding or "utf-8"
    rest = memoryview(text.encode(encoding, "replace"))
    try:
        sys.stdout.flush()
        while rest:  # an unbuffered stream may take less than it is given
            rest = rest[sys.stdout.buffer.write(rest) or 0 :]
        sys.stdout.flush()
    except BrokenPipeError:  # the reader (a pager, `head`) has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # so that the last flush finds a place
        raise SystemExit(PIPE_CLOSED) from None
    except OSError as failure:
        raise Trouble(f"standard output cannot be written ({failure.strerror or failure})") from None


def gathered(pieces: Iterable[str]) -> Iterator[str]:
    """The same text in fewer pieces, each worth writing; one, which may be empty, where it is short."""
    held: list[str] = []
    room = PIECE
    for piece in pieces:
        held.append(piece)
        room -= len(piece)
        if room <= 0:
            yield "".join(held)
            held, room = [], PIECE
    yield "".join(held)


def write_pieces(file: str, pieces: Iterable[str]) -> None:
    """As `write_file`, for a text that is never held whole."""
    from lintarsia.ground.replacing import replace_file

    replace_file(file, (piece.encode("utf-8", "backslashreplace") for piece in gathered(pieces)))


def write_answer(file: str, answer: str | bytes, sources: Iterable[str]) -> None:
    """Write what a command found out, never over `sources`, what it is found out from. Raises Trouble as
    `refuse_source`."""
    from lintarsia.ground.replacing import replace_file

    refuse_source(file, "an answer", "with --output", sources)
    if isinstance(answer, str):
        write_file(file, answer)
    else:
        replace_file(file, answer)


def refuse_source(file: str, what: str, where: str, sources: Iterable[str] = ()) -> None:
    """Raises Trouble for a file that is one of `sources`, whatever its name, or named like a chart, a pattern, a log or
    the settings: `what` is to be written is none of these, and a slip of the keys would cost the source. `where`
    another name can be given."""
    from lintarsia.settings import SETTINGS_NAME

    real = os.path.realpath(file)
    if real in map(os.path.realpath, sources):
        raise Trouble(f"{file!r} is what {what} is made from; name another file {where}")
    for name in (file, real):
        kind = next((kind for kind in Kind if name.casefold().endswith(kind.suffix)), None)
        if kind or os.path.basename(name).casefold() == SETTINGS_NAME:
            noun = f"a {kind.noun}" if kind else "the settings"
            raise Trouble(f"{file!r} is named like {noun}, and {what} is none; name another file {where}")


def write_file(file: str, text: str) -> None:
    """Write a whole file or leave the old one as it was. Raises Trouble where it cannot be written."""
    from lintarsia.ground.replacing import replace_file

    replace_file(file, text.encode("utf-8", "backslashreplace"))
