"""What the door is asked about: a file or a text, with the settings that hold for it, and the chart or pieces in it."""

import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from typing import TypeGuard

from lintarsia.chart import Chart
from lintarsia.door.ofpattern import Chosen, pieces_of
from lintarsia.door.trouble import sound
from lintarsia.ground.kinds import KNITTED_FROM, Kind, kind_of
from lintarsia.ground.trouble import Trouble
from lintarsia.reading import read_chart
from lintarsia.settings import Settings, find_settings
from lintarsia.settings.reader import read_settings
from lintarsia.settings.trust import allowed, handed_over

AnyPath = str | os.PathLike[str]


def taken(chart: AnyPath | Chart, settings: AnyPath | None) -> tuple[Chart, Settings]:
    """A chart, read where it is named, with what holds for it."""
    if isinstance(chart, Chart):
        return chart, settings_for(chart.path, settings)
    file = existing(chart)
    held = settings_for(file, settings)
    return chart_in(file, None, held), held


def pieces_in(pattern: AnyPath, settings: AnyPath | None, piece: str | None, size: str | None) -> Chosen:
    """The pieces of a pattern that are named, None standing for all."""
    file = existing(pattern)
    return pieces_of(file, None, settings_for(file, settings), piece, size)


def is_pattern(chart: AnyPath | Chart, piece: str | None, size: str | None) -> TypeGuard[AnyPath]:
    """Whether it is the file of a pattern. Raises TypeError where a piece or a size is asked of anything else, Trouble
    for a file that is neither a pattern nor a chart."""
    kind = Kind.CHART if isinstance(chart, Chart) else kind_of(os.fspath(chart))
    if kind not in KNITTED_FROM:
        raise Trouble(f"{str(chart)!r} is {kind.what}; expected a chart or a pattern")
    if kind is Kind.CHART and (piece is not None or size is not None):
        raise TypeError("piece= and size= are of a pattern's file; a chart has neither")
    return kind is Kind.PATTERN


def file_or_text(path: AnyPath | None, text: str | bytes | None, name: AnyPath) -> tuple[str, bytes | None]:
    """A file's name, and its content where that is given. Raises TypeError where neither or both are."""
    if path is None and text is not None:
        return os.fspath(name), in_bytes(text)
    if path is None or text is not None:
        raise TypeError("expected the path of a chart, or text=, one of them")
    return existing(path), None


def existing(path: AnyPath) -> str:
    """The path of a file that is there. Raises Trouble for any other."""
    file = os.fspath(path)
    if not os.path.lexists(file):
        raise Trouble(f"there is no file {file!r}")
    if os.path.isdir(file):
        raise Trouble(f"{file!r} is a folder; expected one chart or pattern")
    return file


def chart_in(file: str, data: bytes | None, settings: Settings) -> Chart:
    """The chart in a file, or in `data`. Raises Unreadable."""
    reading = read_chart(file, data, max_bytes=settings.max_bytes, max_stitches=settings.max_stitches)
    return sound(file, reading.problems, reading.chart)


def settings_for(file: str, named: AnyPath | None) -> Settings:
    """Those that are named, or else those found above the file."""
    return named_settings(named) or find_settings(file)


def named_settings(file: AnyPath | None) -> Settings | None:
    """Those of a settings file, whose patterns start from the current folder."""
    return None if file is None else read_settings(os.fspath(file), root=os.getcwd())


def in_bytes(text: str | bytes) -> bytes:
    return text.encode() if isinstance(text, str) else text


@contextmanager
def trusting(allow: bool, *, text: bool = False) -> Iterator[None]:
    """Rules from elsewhere run where the commands would let them: a text is one that is handed over."""
    with ExitStack() as stack:
        if text:
            stack.enter_context(handed_over())
        if allow:
            stack.enter_context(allowed())
        yield
