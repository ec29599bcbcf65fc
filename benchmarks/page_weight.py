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
* next      milliseconds from a tap on "Next row", made at that very moment, until the card with that row is painted
* work      milliseconds that the page's own thread has worked, by the processor's count: until the first paint, until
            it is usable, and in all, a second and a half later. From openings of their own, which are traced. Other
            work on this machine delays a page and adds less to these; it adds to them, though, for what slows the
            page down counts by the clock

What the card says of rows 1 and 2 is read off it and held to the chart's own file: a page that answers soon, and wrong,
is told and not weighed. The aims are HTML below 300 KB and usable within twice the time of the first paint.
"""

import argparse
import json
import re
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
    next: float


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


def expected(chart: str, row: int) -> list[tuple[int, str]]:
    """The runs of a row by the chart's own file: from the right, and back where it is worked flat (common practice)."""
    names = dict(re.findall(r"^  (\w): \{name: ([^,]+),", chart, re.MULTILINE))
    text = chart.rstrip("\n").split("\n")[-row].strip()
    order = text if row % 2 == 0 and "worked: flat" in chart else text[::-1]
    return [(len(run[0]), names[run[1]]) for run in re.finditer(r"(.)\1*", order)]


def joined(runs: list[list]) -> list[tuple[int, str]]:  # type: ignore[type-arg]
    """Runs of the card, those of one colour that follow one another as one: two yarns may have it."""
    found: list[tuple[int, str]] = []
    for stitches, colour in runs:
        before = found.pop() if found and found[-1][1] == colour else (0, colour)
        found.append((before[0] + stitches, colour))
    return found


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


def worked(browser, address: str, slower: float) -> tuple[float, float, float]:  # type: ignore[no-untyped-def]
    """Milliseconds of the page's own thread until the first paint, until it is usable, and in all."""
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
    return done[0], done[1], done[2]


def _start(event: dict) -> tuple[float, float]:  # type: ignore[type-arg]
    return event["ts"], -event["dur"]


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
            "| next, ms | work to paint | to usable | in all |"
        )
        print("|---" * 13 + "|")
        for name, file in zip(names, pages, strict=True):
            address = f"http://127.0.0.1:{server.server_port}/charts/{file}.html"
            chart = (charts / f"{file}.chart.yaml").read_text(encoding="utf-8")
            rounds = [weigh(browser, address, wanted.speed, chart) for _ in range(wanted.rounds)]
            work = [worked(browser, address, wanted.speed) for _ in range(wanted.rounds)]
            middle = Weight(*(statistics.median(found[k] for found in rounds) for k in range(len(Weight._fields))))
            ratio = statistics.median(found.usable / found.paint for found in rounds)
            print(
                f"| {name} | {middle.html / 1000:.0f} | {middle.everything / 1000:.0f} | {middle.requests:.0f} "
                f"| {middle.nodes:,.0f} | {middle.tall:,.0f} | {middle.paint:.0f} | {middle.usable:.0f} "
                f"| {ratio:.1f} | {middle.next:.0f} "
                + "".join(f"| {statistics.median(one[at] for one in work):.0f} " for at in range(3))
                + "|",
                flush=True,
            )
        browser.close()
        server.shutdown()


if __name__ == "__main__":
    main()
