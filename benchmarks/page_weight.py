"""What a chart's page weighs and how soon it can be used, in a browser at a quarter of this processor's speed.

    python benchmarks/page_weight.py [--rounds 5] [--speed 4] [--keep FOLDER] [--against FOLDER]

Four charts made from a seed: pictures of 24 x 24, 60 x 80 and 150 x 200 stitches in 10 colours, in flat intarsia,
and a hat of 144 stitches whose rounds are a repeat of 48. Each page is opened on a phone's window, cold, from a server
on this machine. Told are:

* HTML      bytes of the page itself; `in all` with what it loads before anybody asks for more
* nodes     elements of the page once it has loaded
* paint     milliseconds until something is seen (Paint Timing: first-contentful-paint)
* usable    milliseconds until a tap on "Start at row 1", made as soon as the page has been read and its scripts have
            started, has been answered: the card stands there painted and nothing else keeps the page busy
* next      milliseconds from a tap on "Next row", made at that very moment, until the card with that row is painted
* work      milliseconds that the page's own thread has worked, by the processor's count: until the first paint, until
            it is usable, and in all, a second and a half later. From openings of their own, which are traced. Other
            work on this machine delays a page and adds less to these; it adds to them, though, for what slows the
            page down counts by the clock
* styled, laid out   how often an element was styled and a part laid out until it is usable: counts, which no other work
            on the machine touches much

What the card says of rows 1 and 2 is read off it and held to the chart's own file: a page that answers soon, and wrong,
is told and not weighed. The aims are HTML below 300 KB and usable within twice the time of the first paint.
"""

import argparse
import json
import shutil
import statistics
import tempfile
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import NamedTuple

from page_charts import SIZES, expected, held, joined

PHONE = {"width": 390, "height": 844}
HEADINGS = (
    "chart", "HTML, KB", "in all, KB", "requests", "nodes", "px tall", "paint, ms", "usable, ms", "usable / paint",
    "next, ms", "work to paint", "to usable", "in all", "styled", "laid out",
)  # fmt: skip

# The first tap is made by the page itself, so that no message between two processes is in the figure.
TAP = """
(() => {
  const tap = () => {
    document.querySelector('[data-part="start"]').click();
    const card = document.querySelector('[data-part="card"]');
    const see = () => {
      if (card.hidden) return requestAnimationFrame(see);
      painted(() => {
        performance.mark("usable");
        window.usable = performance.now();
        window.cards = [told(card)];
        card.querySelector('[data-knit="next"]').click();
        painted(() => {
          window.next = performance.now() - window.usable;
          window.cards.push(told(card));
          console.log("answered");
        });
      });
    };
    see();
  };
  const painted = (then) => requestAnimationFrame(() => setTimeout(then, 0));
  // Heading, and each run in working order: stitches and colour.
  const told = (card) => {
    const runs = [];
    for (const run of card.querySelectorAll("[data-units]")) {
      const words = [Number(run.querySelector("b").textContent), run.querySelector("bdi").textContent];
      for (const unit of run.dataset.units.split(" ")) runs[unit] = words;
    }
    return [card.querySelector("h2").firstChild.data, runs];
  };
  // Asking for the link again and again would be work of the page's own thread, and all of it in the figure.
  if (location.hash === "") addEventListener("DOMContentLoaded", () => setTimeout(tap, 0));
})();
"""


class Weight(NamedTuple):
    html: float
    everything: float
    requests: float
    nodes: float
    tall: float
    paint: float
    usable: float
    next: float


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        pass


def opened(browser, address: str, slower: float):  # type: ignore[no-untyped-def]
    """A page in a context of its own, slowed down, which is tapped as soon as it is there; and what it loads."""
    page = browser.new_context(viewport=PHONE, has_touch=True).new_page()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
    bodies: list[int] = []
    page.on("response", lambda answer: bodies.append(int(answer.headers.get("content-length", 0))))
    page.add_init_script(TAP)
    # Nothing is asked of the page until it has answered: that would be work as well.
    with page.expect_console_message(lambda message: message.text == "answered", timeout=120_000):
        page.goto(address, wait_until="commit")
    return page, bodies


def weigh(browser, address: str, slower: float, chart: str) -> Weight:  # type: ignore[no-untyped-def]
    """One cold opening."""
    page, bodies = opened(browser, address, slower)
    page.wait_for_timeout(1500)
    paint, usable, following, nodes, tall, cards = page.evaluate(
        """() => [performance.getEntriesByName("first-contentful-paint")[0].startTime, window.usable, window.next,
        document.getElementsByTagName("*").length, document.documentElement.scrollHeight, window.cards]"""
    )
    for row, (heading, runs) in enumerate(cards, 1):
        assert heading.split()[-1] == str(row), f"row {row} is asked for, and the card says {heading}"
        assert joined(runs) == expected(chart, row), f"row {row} of {address} is told wrong"
    html = len(page.request.get(address).body())
    page.context.close()
    return Weight(html, int(sum(bodies)), len(bodies), nodes, tall, paint, usable, following)


def worked(browser, address: str, slower: float) -> list[float]:  # type: ignore[no-untyped-def]
    """Milliseconds of the page's own thread until the first paint, until it is usable, and in all; and the counts."""
    browser.start_tracing(categories=["devtools.timeline", "toplevel", "blink.user_timing"])
    page, _ = opened(browser, address, slower)
    page.wait_for_timeout(1500)
    paint, usable = page.evaluate(
        '() => [performance.getEntriesByName("first-contentful-paint")[0].startTime, window.usable]'
    )
    events = json.loads(browser.stop_tracing())["traceEvents"]
    page.context.close()
    mark = next(one for one in events if one["name"] == "usable" and one["cat"] == "blink.user_timing")
    began = mark["ts"] - 1000 * usable
    own = [one for one in events if one["ph"] == "X" and "tdur" in one]
    own = sorted((one for one in own if one["tid"] == mark["tid"] and one["pid"] == mark["pid"]), key=_start)
    ends = (began + 1000 * paint, mark["ts"], float("inf"))
    done, until = [0.0, 0.0, 0.0], began
    for task in own:
        if task["ts"] < until:  # within another, which counts it
            continue
        until = task["ts"] + task["dur"]
        for at, end in enumerate(ends):
            done[at] += task["tdur"] / 1000 if task["ts"] < end else 0
    before = [one for one in own if one["ts"] < mark["ts"]]
    styled = sum(one["args"].get("elementCount", 0) for one in before if one["name"] == "UpdateLayoutTree")
    laid = sum(one["args"]["beginData"]["dirtyObjects"] for one in before if one["name"] == "Layout")
    return [*done, styled, laid]


def _start(event: dict) -> tuple[float, float]:  # type: ignore[type-arg]
    return event["ts"], -event["dur"]


def told(  # type: ignore[no-untyped-def]
    name: str, browser, sites: list[str], wanted: argparse.Namespace, chart: str
) -> list[list[str]]:
    """The line of a page in each site, opened in turn: what this machine does besides then falls on all alike."""
    rounds: list[list[Weight]] = [[] for _ in sites]
    work: list[list[list[float]]] = [[] for _ in sites]
    for _ in range(wanted.rounds):
        for at, site in enumerate(sites):
            rounds[at].append(weigh(browser, site, wanted.speed, chart))
            work[at].append(worked(browser, site, wanted.speed))
    return [line(name if at == 0 else "against", rounds[at], work[at]) for at in range(len(sites))]


def line(name: str, rounds: list[Weight], work: list[list[float]]) -> list[str]:
    """Medians, each of its own."""
    middle = Weight(*(statistics.median(found[k] for found in rounds) for k in range(len(Weight._fields))))
    ratio = statistics.median(found.usable / found.paint for found in rounds)
    return [
        name, f"{middle.html / 1000:.0f}", f"{middle.everything / 1000:.0f}", f"{middle.requests:.0f}",
        f"{middle.nodes:,.0f}", f"{middle.tall:,.0f}", f"{middle.paint:.0f}", f"{middle.usable:.0f}", f"{ratio:.1f}",
        f"{middle.next:.0f}", *(f"{statistics.median(one[at] for one in work):,.0f}" for at in range(5)),
    ]  # fmt: skip


def served(folder: Path) -> ThreadingHTTPServer:
    """A site, from a server on this machine."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


def main() -> None:
    """Make, build, open, print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rounds", type=int, default=5, help="openings of each page; told is the median")
    parser.add_argument("--speed", type=float, default=4, help="how many times slower than this processor")
    parser.add_argument("--keep", type=Path, help="a folder for the charts and the site, to look at")
    parser.add_argument("--against", type=Path, help="what --keep left of another version, opened in turn with this")
    wanted = parser.parse_args()
    from playwright.sync_api import sync_playwright

    from lintarsia.publishing.site.building import build_site

    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        root = wanted.keep or Path(scratch)
        charts = root / "charts"
        charts.mkdir(parents=True, exist_ok=True)
        names = held(charts)
        build_site([str(charts)], str(root / "site"), title="Held")
        servers = [served(one / "site") for one in (root, wanted.against) if one]
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        pages = [*(f"picture-{stitches}" for stitches, _ in SIZES), "hat"]
        print("|", " | ".join(HEADINGS), "|\n" + "|---" * len(HEADINGS) + "|")
        for name, file in zip(names, pages, strict=True):
            chart = (charts / f"{file}.chart.yaml").read_text(encoding="utf-8")
            addresses = [f"http://127.0.0.1:{server.server_port}/charts/{file}.html" for server in servers]
            for cells in told(name, browser, addresses, wanted, chart):
                print("|", " | ".join(cells), "|", flush=True)
        browser.close()
        for server in servers:
            server.shutdown()


if __name__ == "__main__":
    main()
