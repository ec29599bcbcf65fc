"""The part of `lintarsia check` that takes a chart from standard input, as editors hand it over."""

import os
import sys
from typing import TYPE_CHECKING

from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.engine.running import Stream
    from lintarsia.settings import Settings

UNNAMED = "stdin.chart.yaml"


def read_stream(name: str | None, settings: "Settings | None") -> "Stream":
    """The chart on standard input, under the name that its results are told with and its settings are found by.

    No more is read than the settings allow a chart to have and a byte, by which its check sees that it is too large.
    Raises Trouble where there is no standard input, or the name can be no chart's.
    """
    from lintarsia.engine.running import Stream
    from lintarsia.settings import find_settings

    name = os.path.normpath(name) if name else UNNAMED
    if "\0" in name or os.path.isdir(name):
        raise Trouble(f"--stdin-name {name!r} is no name for a chart; expected a file's")
    if sys.stdin is None:
        raise Trouble("there is no standard input to read a chart from")
    most = (settings or find_settings(name)).max_bytes
    try:
        return Stream(name, sys.stdin.buffer.read(most + 1))
    except OSError as failure:
        raise Trouble(f"standard input cannot be read ({failure.strerror or failure})") from None
