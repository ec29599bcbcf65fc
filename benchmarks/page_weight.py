"""What a chart's page weighs and how soon it can be used, in a browser at a quarter of this processor's speed.

    python benchmarks/page_weight.py [--rounds 5] [--speed 4] [--keep FOLDER]

Four charts made from a seed: pictures of 24 x 24, 60 x 80 and 150 x 200 stitches in 10 colours, in flat intarsia,
and a hat of 144 stitches whose rounds are a repeat of 48. Each page is opened on a phone's window, cold, from a server
on this machine. Told are:

* HTML      bytes of the page itself; `in all` with what it loads before anybody asks for more
* nodes     elements of the page once it has loaded
* paint     milliseconds until something is seen (Paint Timing: first-contentful-paint)
* usable    milliseconds until a tap on "Start at row 1", made as soon as there is such a link, has been answered: the
            card stands there painted and nothing else keeps the page busy
* busy      milliseconds that the page's own thread has worked until then, by the processor's count: other work on this
            machine delays it, and hardly adds to it

The aims are HTML below 300 KB and usable within twice the time of the first paint.
"""

import argparse
import shutil
import statistics
import tempfile
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import NamedTuple

import numpy as np
from pictures import chart_text, picture

PHONE = {"width": 390, "height": 844}
SIZES = ((24, 24), (60, 80), (150, 200))
COLOURS = 10

# The first tap is made by the page itself, so that no message between two processes is in the figure.
TAP = """
(() => {
  const tap = () => {
    const start = document.querySelector('[data-part="start"]');
    if (!start || document.readyState === "loading") return setTimeout(tap, 1);
    start.click();
    const card = document.querySelector('[data-part="card"]');
    const see = () => {
      if (card.hidden) return requestAnimationFrame(see);
      requestAnimationFrame(() => setTimeout(() => { window.usable = performance.now(); }, 0));
    };
    see();
  };
  if (location.hash === "") tap();
})();
"""


class Weight(NamedTuple):
    html: int
    everything: int
    requests: int
    nodes: int
    tall: int
    paint: float
    usable: float
    busy: float


def held(folder: Path) -> list[str]:
    """The charts, below `folder`; their names in the order they are told of."""
    names = []
    for stitches, rows in SIZES:
        cells = picture("poster", rows, stitches, colours=COLOURS, seed=7)
        names.append(f"{stitches} × {rows}")
        (folder / f"picture-{stitches}.chart.yaml").write_text(chart_text(cells), encoding="utf-8")
    (folder / "hat.chart.yaml").write_text(hat(), encoding="utf-8")
    return [*names, "hat of 48"]


def hat() -> str:
    """144 stitches by 40 rounds, stranded, three times a band of 48 stitches in two colours a round."""
    rng = np.random.default_rng(11)
    band = np.repeat(rng.integers(0, 2, (40, 24)), 2, axis=1)
    band[::8] = 0
    rows = ["  " + "".join("ABC"[cell if row < 20 else 2 * cell] for cell in np.tile(line, 3)) for row, line in
            enumerate(band)]  # fmt: skip
    head = [
        "lintarsia: 1", "title: A hat from a seed", "worked: round", "technique: stranded",
        "gauge: {stitches: 26, rows: 30, over: 10 cm}", "colours:",
        '  A: {name: Oat, shade: "#e8dcc4"}', '  B: {name: Night, shade: "#20304f"}',
        '  C: {name: Moss, shade: "#5b7443"}', "repeat: {stitches: [1, 48], rows: [1, 40]}", "chart: |",
    ]  # fmt: skip
    return "\n".join([*head, *rows]) + "\n"


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        pass


def weigh(browser, address: str, slower: float) -> Weight:  # type: ignore[no-untyped-def]
    """One cold opening."""
    context = browser.new_context(viewport=PHONE, has_touch=True)
    page = context.new_page()
    cdp = context.new_cdp_session(page)
    cdp.send("Network.enable")
    cdp.send("Performance.enable", {"timeDomain": "threadTicks"})
    cdp.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    loaded: list[float] = []
    cdp.on("Network.loadingFinished", lambda event: loaded.append(event["encodedDataLength"]))
    bodies: list[int] = []
    page.on("response", lambda answer: bodies.append(int(answer.headers.get("content-length", 0))))
    page.add_init_script(TAP)
    page.goto(address, wait_until="load")
    page.wait_for_function("window.usable !== undefined", timeout=120_000)
    page.wait_for_timeout(300)
    paint, usable, nodes, tall = page.evaluate(
        """() => [performance.getEntriesByName("first-contentful-paint")[0].startTime, window.usable,
        document.getElementsByTagName("*").length, document.documentElement.scrollHeight]"""
    )
    metrics = {one["name"]: one["value"] for one in cdp.send("Performance.getMetrics")["metrics"]}
    html = len(page.request.get(address).body())
    found = Weight(html, int(sum(bodies)), len(bodies), nodes, tall, paint, usable, 1000 * metrics["TaskDuration"])
    context.close()
    return found


def main() -> None:
    """Make, build, open, print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rounds", type=int, default=5, help="openings of each page; told is the median")
    parser.add_argument("--speed", type=float, default=4, help="how many times slower than this processor")
    parser.add_argument("--keep", type=Path, help="a folder for the charts and the site, to look at")
    wanted = parser.parse_args()
    from playwright.sync_api import sync_playwright

    from lintarsia.publishing.site.building import build_site

    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        root = wanted.keep or Path(scratch)
        charts, out = root / "charts", root / "site"
        charts.mkdir(parents=True, exist_ok=True)
        names = held(charts)
        build_site([str(charts)], str(out), title="Held")
        server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(out)))
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        pages = [*(f"picture-{stitches}" for stitches, _ in SIZES), "hat"]
        print(
            "| chart | HTML, KB | in all, KB | requests | nodes | px tall | paint, ms | usable, ms | usable / paint "
            "| busy, ms |"
        )
        print("|---|---|---|---|---|---|---|---|---|---|")
        for name, file in zip(names, pages, strict=True):
            address = f"http://127.0.0.1:{server.server_port}/charts/{file}.html"
            rounds = [weigh(browser, address, wanted.speed) for _ in range(wanted.rounds)]
            middle = Weight(*(statistics.median(found[k] for found in rounds) for k in range(len(Weight._fields))))
            ratio = statistics.median(found.usable / found.paint for found in rounds)
            print(
                f"| {name} | {middle.html / 1000:.0f} | {middle.everything / 1000:.0f} | {middle.requests:.0f} "
                f"| {middle.nodes:,.0f} | {middle.tall:,.0f} | {middle.paint:.0f} | {middle.usable:.0f} "
                f"| {ratio:.1f} | {middle.busy:.0f} |",
                flush=True,
            )
        browser.close()
        server.shutdown()


if __name__ == "__main__":
    main()
