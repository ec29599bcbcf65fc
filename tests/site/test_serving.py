"""Served pages: made anew when a chart changes, shown without being asked, and standing when a chart cannot be."""

import socket
import struct
import threading
import urllib.error
import urllib.request
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from sitekit import SHORT_ROW

from lintarsia.publishing.site.building import build_site
from lintarsia.publishing.site.serving import Serving


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[Serving, Path, list[str]]]:
    charts, told = tmp_path / "charts", list[str]()
    charts.mkdir()
    (charts / "gate.chart.yaml").write_text(SHORT_ROW)
    with running(charts, tmp_path / "out", told) as serving:
        yield serving, charts, told


@contextmanager
def running(charts: Path, out: Path, told: list[str]) -> Iterator[Serving]:
    """Served until the block ends."""
    ready = threading.Event()

    def tell(text: str) -> None:
        told.append(text)
        if text.startswith("the pages are at"):
            ready.set()

    serving = Serving(lambda: build_site([str(charts)], str(out), cores=1), [str(charts)], str(out), tell=tell)
    thread = threading.Thread(target=serving.run, daemon=True)
    thread.start()
    assert ready.wait(60)
    yield serving
    serving.stop()
    thread.join(60)
    assert not thread.is_alive()


def test_a_change_is_shown_without_being_asked(served: tuple[Serving, Path, list[str]], browser: Browser) -> None:
    serving, charts, _ = served
    context = browser.new_context()
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.goto(f"{serving.address}charts/gate.html")
    expect(page.get_by_role("heading", level=1)).to_have_text("Gate with a fault")
    page.wait_for_timeout(300)
    (charts / "gate.chart.yaml").write_text(SHORT_ROW.replace("Gate with a fault", "Gate, mended"))
    expect(page.get_by_role("heading", level=1)).to_have_text("Gate, mended", timeout=60_000)
    context.close()
    assert [text for text in complaints if "Failed to load" not in text and "ERR_" not in text] == []


def test_pages_that_cannot_be_made_leave_the_old_ones(served: tuple[Serving, Path, list[str]]) -> None:
    serving, charts, told = served
    (charts / "lintarsia.yaml").write_text("rules: {no/such-rule: off}\n")
    for _ in range(600):
        if any("stay as they were" in text for text in told):
            break
        threading.Event().wait(0.1)
    assert any("stay as they were" in text and "no/such-rule" in text for text in told)
    with urllib.request.urlopen(f"{serving.address}charts/gate.html") as answer:
        assert b"Gate with a fault" in answer.read()


def test_faulty_settings_show_in_the_page_until_they_are_mended(
    served: tuple[Serving, Path, list[str]], browser: Browser
) -> None:
    serving, charts, _ = served
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{serving.address}charts/gate.html")
    (charts / "lintarsia.yaml").write_text("rules: {no/such-rule: off}\n")
    said = page.get_by_role("status").filter(has_text="no/such-rule")
    expect(said).to_contain_text("These pages are as they were", timeout=60_000)
    expect(page.get_by_role("heading", level=1)).to_have_text("Gate with a fault")
    page.reload()
    expect(said).to_be_visible()
    (charts / "gate.chart.yaml").write_text(SHORT_ROW.replace("Gate with a fault", "Gate, mended"))
    (charts / "lintarsia.yaml").unlink()
    expect(page.get_by_role("heading", level=1)).to_have_text("Gate, mended", timeout=60_000)
    expect(said).to_have_count(0)
    context.close()


def test_settings_that_are_faulty_from_the_start_wait_to_be_mended(tmp_path: Path, browser: Browser) -> None:
    charts, out = tmp_path / "charts", tmp_path / "out"
    charts.mkdir()
    (charts / "gate.chart.yaml").write_text(SHORT_ROW)
    (charts / "lintarsia.yaml").write_text("rules: {<b>: off}\n")
    told: list[str] = []
    with running(charts, out, told) as serving:
        assert told[0].startswith("there are no pages yet: ")
        with pytest.raises(urllib.error.HTTPError, match="503") as answer:
            urllib.request.urlopen(f"{serving.address}charts/gate.html")
        assert b"&lt;b&gt;" in answer.value.read()
        context = browser.new_context()
        page = context.new_page()
        page.goto(serving.address)
        expect(page.get_by_role("heading", level=1)).to_have_text("No pages yet")
        (charts / "lintarsia.yaml").write_text("rules: {}\n")
        expect(page.get_by_role("heading", level=1)).to_have_text("Charts", timeout=60_000)
        context.close()


def test_the_page_of_a_deleted_chart_says_so_and_is_back_with_the_chart(
    served: tuple[Serving, Path, list[str]], browser: Browser
) -> None:
    serving, charts, _ = served
    (charts / "other.chart.yaml").write_text(SHORT_ROW)
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{serving.address}charts/gate.html")
    text = (charts / "gate.chart.yaml").read_text()
    (charts / "gate.chart.yaml").unlink()
    expect(page.get_by_role("heading", level=1)).to_have_text("This page is gone", timeout=60_000)
    with pytest.raises(urllib.error.HTTPError, match="404"):
        urllib.request.urlopen(f"{serving.address}charts/gate.html")
    (charts / "gate.chart.yaml").write_text(text)
    expect(page.get_by_role("heading", level=1)).to_have_text("Gate with a fault", timeout=60_000)
    context.close()


def test_folders_are_not_listed_and_nothing_outside_is_served(served: tuple[Serving, Path, list[str]]) -> None:
    serving, _, _ = served
    for path in ("charts/", "..%2f..%2fetc/passwd", "../charts/gate.chart.yaml", "assets/"):
        with pytest.raises(urllib.error.HTTPError, match="404"):
            urllib.request.urlopen(serving.address + path)


def test_the_script_that_asks_is_not_in_the_folder(served: tuple[Serving, Path, list[str]], tmp_path: Path) -> None:
    assert b"/-/reload" not in (tmp_path / "out" / "index.html").read_bytes()


@pytest.mark.slow
def test_a_browser_that_leaves_is_no_failure(
    served: tuple[Serving, Path, list[str]], tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    serving, out = served[0], tmp_path / "out"
    before = set(threading.enumerate())  # a browser of another test may be waiting still
    host, port = serving.address.removeprefix("http://").strip("/").split(":")
    for path in ("/index.html", "/-/reload", "/assets/lintarsia.css", "/nowhere", "/charts/gate.html") * 4:
        with socket.create_connection((host, int(port))) as browser:
            browser.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))  # gone, without a goodbye
            browser.sendall(f"GET {path} HTTP/1.1\r\nHost: knits.example\r\n\r\n".encode())
    (out / "large.css").write_bytes(b" " * 20_000_000)
    for _ in range(3):  # in the middle of its answer
        with socket.create_connection((host, int(port))) as browser:
            browser.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            browser.sendall(b"GET /large.css HTTP/1.1\r\nHost: knits.example\r\n\r\n")
            assert browser.recv(1000).startswith(b"HTTP/1.0 200")
    with urllib.request.urlopen(serving.address) as answer:
        assert answer.status == 200
    assert wait_for_the_end_of(lambda: set(threading.enumerate()) - before)
    assert capfd.readouterr().err == ""


def wait_for_the_end_of(running: Callable[[], Collection[threading.Thread]]) -> bool:
    for _ in range(300):
        if not running():
            return True
        threading.Event().wait(0.1)
    return False
