"""A held chart of 150 × 200 stitches in 10 colours, in which no row mirrors another, and a way to look at it."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from math import cos, sin
from pathlib import Path
from threading import Thread
from typing import Any

from playwright.sync_api import Page

STITCHES, ROWS, COLOURS = 150, 200, 10
SYMBOLS = "ABCDEFGHIJ"


def colour(stitch: int, row: int) -> str:
    """What the chart has at a stitch, counted from the right, of a row: waves, lopsided."""
    height = sin(stitch / 17) + cos(row / 23) + sin((2 * stitch + row) / 41) + 3
    return SYMBOLS[min(COLOURS - 1, int(height / 6 * COLOURS))]


def chart() -> str:
    head = "lintarsia: 1\ntitle: Waves\nworked: flat\ngauge: {stitches: 22, rows: 30, over: 10 cm}\ncolours:\n"
    key = "".join(
        f'  {symbol}: {{name: Breaker {number}, shade: "#{40 + 20 * number:02x}{220 - 15 * number:02x}90"}}\n'
        for number, symbol in enumerate(SYMBOLS, 1)
    )
    rows = ["".join(colour(stitch, row) for stitch in range(STITCHES, 0, -1)) for row in range(ROWS, 0, -1)]
    return f"{head}{key}chart: |\n" + "".join(f"  {row}\n" for row in rows)


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of a folder, which only this machine is told of."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()
    thread.join()


def middle(page: Page, row: int, stitch: int) -> tuple[float, float]:
    """Where a stitch is in the window."""
    x, y = page.evaluate(
        """([row, first]) => { const place = lintarsia.placeOf({ row, first, last: first });
        return [(place.left + place.right) / 2, (place.top + place.bottom) / 2]; }""",
        [row, stitch],
    )
    return x, y


def pinch(page: Page, x: float, y: float, apart: tuple[float, float]) -> None:
    """Two fingers around a point, moved from one distance to another."""
    cdp = page.context.new_cdp_session(page)

    def fingers(gap: float) -> list[dict[str, float]]:
        return [{"x": x - gap / 2, "y": y, "id": 0}, {"x": x + gap / 2, "y": y, "id": 1}]

    start, end = apart
    cdp.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": fingers(start)})
    for part in range(1, 7):
        gap = start + (end - start) * part / 6
        cdp.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": fingers(gap)})
    cdp.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
