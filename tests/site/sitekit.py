"""What the tests of the pages share: charts, window sizes, a built site and a pair of eyes on it."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Dialog, FloatRect, Locator, Page, ViewportSize

from lintarsia.chart import Chart
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.keyview import make_key
from lintarsia.publishing.pages.rowview import listed_steps, row_lines

HERE = Path(__file__).parent
EXAMPLES = HERE.parents[1] / "examples"
PHONE, DESK = ViewportSize(width=390, height=844), ViewportSize(width=1280, height=900)

SHORT_ROW = """\
lintarsia: 1
title: Gate with a fault
worked: flat
gauge: {stitches: 22, rows: 30, over: 10 cm}
yarns:
  w: {name: Plain DK, length: 120 m, mass: 50 g, balls: 1}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
wearer: infant
chart: |
  BBBBBBBB
  BBBWWBBB
  BBWWWBB
  BBBWWBBB
  BBBBBBBB
"""
ROUNDS = """\
lintarsia: 1
title: Ring of leaves
worked: round
technique: stranded
gauge: {stitches: 8, rows: 10, over: 1 in}
colours:
  G: {name: Moss, shade: "#5b7443"}
  C: {name: Cream, shade: "#f3ead7"}
repeat: {stitches: [1, 4], rows: [1, 4]}
chart: |
  CCGCCCGCCCGCCCGCCCGCC
  CGGCCGGCCGGCCGGCCGGCC
  GGCCGGCCGGCCGGCCGGCCG
  GCCCGCCCGCCCGCCCGCCCG
"""
CUSHION = """\
lintarsia-pattern: 1
title: Bag of two sides
sizes: [small, large]
pieces:
  front: {chart: orchard-bag.chart.yaml}
  ring: {chart: hats/ring.chart.yaml, times: 2, cast-on: {small: 21, large: 33}}
"""
LOG = """\
lintarsia-knit: 1
chart: orchard-bag.chart.yaml
knitter: Wren
rows:
  - {row: 9, stitches: [4, 6], kind: trouble, said: "<i>the yarns</i> would not lie flat"}
"""
TORN = "lintarsia: 1\ntitle: [never closed\nchart: |\n  AB\n"


def row_list(chart: Chart) -> str:
    """The lines of a chart's list of rows."""
    plan = make_plan(chart)
    return "\n".join(line.html for line in row_lines(chart, plan, make_key(chart, plan), listed_steps(chart, plan)))


def box(part: Locator) -> FloatRect:
    """Where a part of a page is: x, y, width, height, CSS pixels."""
    found = part.bounding_box()
    assert found is not None
    return found


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """The address of a folder, served from this machine only."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()
    thread.join()


@dataclass
class Site:
    """A built site and where it is served; of what `theme`, where it is somebody else's. `asked` gathers every address
    that a page asked for."""

    folder: Path
    address: str
    asked: list[str] = field(default_factory=list)
    theme: str = ""


SETTLED = """async () => {
  const idle = () => new Promise((done) => requestIdleCallback(done, { timeout: 2500 }));
  while (document.documentElement.classList.contains("is-coming")) await idle();
  for (let more = 0; more < 4; more++) await idle();
}"""
"""Until all that the page puts off for the sake of a first tap has been done."""


class Look:
    """Opens pages and minds what they must not do: ask anybody else for anything, complain, or raise."""

    def __init__(self, site: Site, browser: Browser) -> None:
        self.site = site
        self._browser = browser
        self._contexts: list[BrowserContext] = []
        self.complaints: list[str] = []

    def at(self, path: str, *, size: ViewportSize = DESK, **options: Any) -> Page:
        context = self._browser.new_context(viewport=size, **options)
        self._contexts.append(context)
        page = context.new_page()
        page.on("request", lambda request: self.site.asked.append(request.url))
        page.on("console", lambda message: self.complaints.append(f"{path}: {message.text}"))
        page.on("pageerror", lambda error: self.complaints.append(f"{path}: {error}"))

        def refuse(dialog: Dialog) -> None:
            self.complaints.append(f"{path}: a dialog")
            dialog.dismiss()

        page.on("dialog", refuse)
        page.goto(self.site.address + path)
        if options.get("java_script_enabled", True):
            page.evaluate(SETTLED)
        return page

    def close(self) -> None:
        """Nothing is asked for any more once this returns."""
        while self._contexts:
            self._contexts.pop().close()
