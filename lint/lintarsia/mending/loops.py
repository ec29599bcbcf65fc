"""The loop that test knits give, stated in the charts: through the editor of YAML text, each file replaced whole."""

import os
from collections.abc import Iterable
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.measure import Length
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.knits.calibrate import NewLoop
from lintarsia.reading import read_chart
from lintarsia.reading.applying import edited, parted
from lintarsia.reading.source import read_inside
from lintarsia.result import Edit
from lintarsia.settings import Settings, SettingsFinder


class StatedLoop(NamedTuple):
    """A chart that now states a loop, as written: `18.6 mm`."""

    chart: str
    loop: str


def state_loops(loops: Iterable[NewLoop], settings: Settings | None = None) -> list[StatedLoop]:
    """Write `gauge: loop` into each chart; those that state it already are left as they are.

    Every file is edited and read again before the first is written. Raises Trouble for one that cannot be edited.
    """
    finder = SettingsFinder(settings)
    changes: dict[str, tuple[bytes, bytes, str]] = {}
    for loop in loops:
        changed = _change(loop, finder.for_folder(os.path.dirname(os.path.abspath(loop.chart))))
        if changed is not None and changes.setdefault(loop.chart, changed) != changed:
            raise Trouble(f"{loop.chart}: two patterns give it different loops; name one pattern at a time")
    for chart, (old, new, _) in changes.items():
        replace_file(chart, new, expect=old)
    return [StatedLoop(chart, said) for chart, (_, _, said) in changes.items()]


def _change(loop: NewLoop, settings: Settings) -> tuple[bytes, bytes, str] | None:
    said = str(Length(round(loop.mm, 1)))
    old = read_inside(loop.chart, settings.max_bytes)
    chart = read_chart(loop.chart, old, max_bytes=settings.max_bytes, max_stitches=settings.max_stitches).chart
    if chart is None:
        raise Trouble(f"{loop.chart}: the chart cannot be read, so its loop is not stated")
    if chart.gauge.loop is not None and str(chart.gauge.loop) == said:
        return None
    mark, text = parted(old)
    edit = _edit(chart, said)
    new = mark + edited(text, [edit]).encode("utf-8") if edit is not None else b""
    after = read_chart(loop.chart, new, max_bytes=settings.max_bytes, max_stitches=settings.max_stitches).chart
    if after is None or str(after.gauge.loop) != said:
        raise Trouble(f"{loop.chart}: write `loop: {said}` into its gauge by hand; its layout leaves a doubt where")
    return old, new, said


def _edit(chart: Chart, said: str) -> Edit | None:
    editor = chart.places.editor
    if editor is None:
        return None
    return editor.replacing(("gauge", "loop"), said) or editor.adding(("gauge",), f"loop: {said}")
