"""What the server of pages answers and when it makes them anew, with a build that writes a few bytes: no browser.

What an answer consists of: HTTP Semantics (RFC 9110). A page's bytes are those of the folder, with one script more."""

import json
import os
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from email.message import Message
from http.client import HTTPConnection
from pathlib import Path

import pytest
from lxml import html

from lintarsia.ground.trouble import SettingsTrouble, Trouble
from lintarsia.publishing.site import serving as served
from lintarsia.publishing.site.servedpages import language_of, reload_script
from lintarsia.publishing.site.serving import Serving
from straytext import stray

PAGE = "<html><head><title>{}</title></head><body></head></body></html>"
ASKS = '<script src="/-/reload.js" defer></script></head>'


class Watched(list[str]):
    """What is watched; it counts how often it is gone through, so that a test can wait for whole looks at the files."""

    looks = 0

    def __iter__(self) -> Iterator[str]:
        self.looks += 1
        return super().__iter__()


class Site:
    """A folder of charts and one of pages that are made of them: each page says how often it has been made."""

    def __init__(self, folder: Path, host: str = "127.0.0.1") -> None:
        self.charts, self.out = folder / "charts", folder / "out"
        for one in (self.charts, self.out / "sub", self.out / "empty"):
            one.mkdir(parents=True)
        self.watched = Watched([str(self.charts)])
        self.builds = 0
        self.told: list[str] = []
        self.failing: Exception | None = None
        self.serving = Serving(self.build, self.watched, str(self.out), host=host, tell=self.told.append)

    def build(self) -> None:
        self.builds += 1
        if self.failing is not None:
            raise self.failing
        for name in ("index.html", "sub/index.html", "gate.html"):
            (self.out / name).write_text(PAGE.format(f"{name} {self.builds}"))
        (self.out / "plain.css").write_text(PAGE.format("no page"))

    def ask(self, path: str, method: str = "GET") -> tuple[int, Message, bytes]:
        """Status, head and body of an answer, whatever the status."""
        host, port = self.serving.address.removeprefix("http://").strip("/").rsplit(":", 1)
        with closing(HTTPConnection(host.strip("[]"), int(port), timeout=30)) as line:
            line.request(method, path)
            answer = line.getresponse()
            return answer.status, answer.headers, answer.read()

    def until(self, so: Callable[[], bool]) -> bool:
        return any(so() or threading.Event().wait(0.01) for _ in range(2000))

    def look_twice(self) -> None:
        """Wait until all that was changed before has been seen, and what comes of that is done: the look that goes on
        may have begun before it, and what the next one finds is built before the one after that."""
        looks = self.watched.looks
        assert self.until(lambda: self.watched.looks >= looks + 2)

    def put(self, file: Path, text: str) -> None:
        """Write a file at once: one that is half written is another change."""
        file.parent.mkdir(parents=True, exist_ok=True)
        aside = self.out.parent / "aside"
        aside.write_text(text)
        os.replace(aside, file)

    def changed(self, name: str, text: str = "x") -> int:
        """How many builds a change of a file leads to."""
        before = self.builds
        self.put(self.charts / name, text)
        self.look_twice()
        return self.builds - before


@pytest.fixture(autouse=True)
def _hurried(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(served, "ASK_SECONDS", 0.005)


@contextmanager
def running(site: Site) -> Iterator[Site]:
    thread = threading.Thread(target=site.serving.run, daemon=True)
    thread.start()
    assert site.until(lambda: any("the pages are at" in one for one in site.told) or not thread.is_alive())
    yield site
    site.serving.stop()
    thread.join(30)
    assert not thread.is_alive()


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    with running(Site(tmp_path)) as one:
        yield one


@pytest.mark.parametrize(
    ("path", "name"),
    [("/", "index.html"), ("/sub/", "sub/index.html"), ("/gate.html", "gate.html"), ("/gate.html?row=3", "gate.html")],
)
def test_a_page_is_sent_with_the_script_that_asks(site: Site, path: str, name: str) -> None:
    status, head, body = site.ask(path)
    assert status == 200
    assert body.decode() == PAGE.format(f"{name} 1").replace("</head>", ASKS, 1)
    assert head["Content-Type"] == "text/html; charset=utf-8"
    assert head["Content-Length"] == str(len(body))
    assert head["Cache-Control"] == "no-store"
    assert head.get_all("X-Content-Type-Options") == ["nosniff"]
    assert head["Server"].strip() == "lintarsia"


def test_any_other_file_is_sent_as_it_is(site: Site) -> None:
    status, head, body = site.ask("/plain.css")
    assert (status, body.decode()) == (200, PAGE.format("no page"))
    assert head["Content-Type"] == "text/css"
    assert head.get_all("X-Content-Type-Options") == ["nosniff"]
    status, head, body = site.ask("/plain.css", "HEAD")
    assert (status, head["Content-Length"], body) == (200, str(len(PAGE.format("no page"))), b"")


def test_the_script_is_sent_as_one(site: Site) -> None:
    status, head, body = site.ask("/-/reload.js")
    assert (status, head["Content-Type"], body) == (200, "text/javascript", reload_script())


@pytest.mark.parametrize("path", ["/nowhere.html", "/nowhere", "/sub.d/nowhere", "/nowhere.html?a=b.css", "/empty/"])
def test_where_there_is_no_page_a_page_says_so(site: Site, path: str) -> None:
    status, head, body = site.ask(path)
    assert (status, head["Content-Type"]) == (404, "text/html; charset=utf-8")
    page = html.document_fromstring(body)
    assert [page.findtext(f".//{tag}") for tag in ("title", "h1")] == ["This page is gone"] * 2
    assert page.xpath("//a/@href") == ["/"]
    assert page.xpath("//script/@src") == ["/-/reload.js"]
    assert stray(page) == []


def test_that_a_page_is_gone_is_said_in_the_language_of_the_pages(site: Site) -> None:
    """Words: the catalogue's, which only its reader may change."""
    (site.out / "index.html").write_text('<!doctype html>\n<html class="x" lang="de"><head></head></html>')
    page = html.document_fromstring(site.ask("/nowhere")[2])
    assert page.get("lang") == "de"
    assert page.findtext(".//h1") == "Diese Seite gibt es nicht mehr"
    assert "cannot be used" not in (script := site.ask("/-/reload.js")[2].decode())
    assert "Diese Seiten sind, wie sie waren" in script


@pytest.mark.parametrize(
    ("given", "settings", "language"),
    [("nb", "language: de\n", "nb"), ("", "blok: x\nlanguage: 'fr'  # hers\n", "fr"), ("", "language: xx\n", "en"),
     ("", None, "en")],
)  # fmt: skip
def test_where_no_page_is_made_yet_the_settings_or_the_command_say_the_language(
    tmp_path: Path, given: str, settings: str | None, language: str
) -> None:
    file = tmp_path / "lintarsia.yaml"
    if settings is not None:
        file.write_text(settings)
    assert language_of(str(tmp_path), given, str(file)) == language


@pytest.mark.parametrize("path", ["/nowhere.css", "/nowhere.svg?x"])
def test_where_there_is_no_file_there_is_no_page_about_it(site: Site, path: str) -> None:
    status, _, body = site.ask(path)
    assert status == 404
    assert b"This page is gone" not in body


def test_folders_have_no_listing(site: Site) -> None:
    for path in ("/empty/", "/empty"):
        status, _, body = site.ask(path, "HEAD")
        assert (status, body) == (404 if path.endswith("/") else 301, b"")


@pytest.mark.parametrize("method", ["GET", "HEAD"])
@pytest.mark.parametrize("path", ["/%00", "/a%00b.html", f"/{'x' * 300}", f"/{'x' * 300}.css", "/charts/%FF.html"])
def test_a_name_that_no_file_can_have_is_not_found(
    site: Site, capfd: pytest.CaptureFixture[str], method: str, path: str
) -> None:
    assert site.ask(path, method)[0] == 404
    assert capfd.readouterr().err == ""


def test_nothing_outside_is_served(site: Site) -> None:
    (site.charts / "gate.chart.yaml").write_text("x")
    for path in ("/..%2f..%2fetc/passwd", "/../charts/gate.chart.yaml"):
        assert site.ask(path)[0] == 404


def test_who_knows_no_state_is_told_the_one_there_is(site: Site) -> None:
    status, head, body = site.ask("/-/reload?")
    assert (status, head["Content-Type"]) == (200, "application/json")
    assert json.loads(body) == {"version": 0, "trouble": ""}


def test_who_knows_the_state_waits_for_the_next(site: Site) -> None:
    answers: list[bytes] = []
    asking = threading.Thread(target=lambda: answers.append(site.ask("/-/reload?0")[2]), daemon=True)
    asking.start()
    site.look_twice()
    assert answers == []
    site.put(site.charts / "gate.chart.yaml", "new")
    asking.join(30)
    assert [json.loads(one) for one in answers] == [{"version": 1, "trouble": ""}]
    assert b"gate.html 2" in site.ask("/gate.html")[2]
    assert json.loads(site.ask("/-/reload?0")[2])["version"] == 1


def test_nobody_waits_for_ever(site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(served, "WAIT_SECONDS", 0.01)
    assert json.loads(site.ask("/-/reload?0")[2]) == {"version": 0, "trouble": ""}


@pytest.mark.parametrize("name", ["a.chart.yaml", "deep/er/lintarsia.yml"])
def test_a_new_chart_makes_the_pages_anew(site: Site, name: str) -> None:
    assert site.changed(name) == 1
    assert site.until(lambda: site.told[1:] == ["made anew"])


@pytest.mark.parametrize("name", ["notes.txt", ".hidden/a.chart.yaml", "deep/.hidden/a.chart.yaml", "a.chart.yaml~"])
def test_what_is_no_chart_makes_nothing(site: Site, name: str) -> None:
    assert site.changed(name) == 0
    assert site.changed("a.chart.yaml") == 1


def test_a_change_is_seen_by_time_or_by_size_and_a_file_that_goes_by_its_absence(site: Site) -> None:
    file = site.charts / "a.chart.yaml"
    site.changed("a.chart.yaml", "one")
    assert site.until(lambda: site.builds == 2)
    stood = file.stat()
    os.utime(file, ns=(stood.st_atime_ns, stood.st_mtime_ns + 1_000_000))
    assert site.until(lambda: site.builds == 3)
    later = file.stat()
    aside = site.charts.parent / "aside"
    aside.write_text("other")
    os.utime(aside, ns=(later.st_atime_ns, later.st_mtime_ns))
    os.replace(aside, file)
    assert site.until(lambda: site.builds == 4)
    file.unlink()
    assert site.until(lambda: site.builds == 5)
    site.look_twice()
    assert site.builds == 5


def test_a_file_that_is_named_by_itself_is_watched_whatever_it_is_called(tmp_path: Path) -> None:
    one = Site(tmp_path)
    one.watched[:] = [str(tmp_path / "gate"), str(tmp_path / "not-there-yet")]
    (tmp_path / "gate").write_text("x")
    with running(one):
        one.changed("a.chart.yaml")
        assert one.builds == 1
        for number, name in enumerate(("gate", "not-there-yet"), 2):
            one.put(tmp_path / name, "longer")
            assert one.until(lambda number=number: one.builds == number)  # type: ignore[misc]


def test_pages_that_cannot_be_made_anew_stay_and_the_reason_is_told(site: Site) -> None:
    site.failing = Trouble("a <chart> is torn")
    site.changed("a.chart.yaml")
    assert site.until(lambda: site.told[1:] == ["the pages stay as they were: a <chart> is torn"])
    assert json.loads(site.ask("/-/reload?0")[2]) == {"version": 1, "trouble": "a <chart> is torn"}
    assert b"index.html 1" in site.ask("/")[2]
    assert b"This page is gone" in site.ask("/nowhere.html")[2]
    site.failing = None
    site.changed("a.chart.yaml", "mended")
    assert site.until(lambda: site.told[2:] == ["made anew"])
    assert json.loads(site.ask("/-/reload?1")[2]) == {"version": 2, "trouble": ""}


def test_faulty_settings_at_first_are_told_in_the_place_of_every_page(tmp_path: Path) -> None:
    one = Site(tmp_path)
    settings = one.charts / "lintarsia.yaml"
    settings.write_text("faulty")
    one.failing = SettingsTrouble("no rule <b>", str(settings))
    with running(one):
        assert one.told[0] == "there are no pages yet: no rule <b>"
        assert one.told[1] == f"the pages are at {one.serving.address} (Ctrl-C stops)"
        for path in ("/", "/gate.html", "/gate"):
            status, head, body = one.ask(path)
            assert (status, head["Content-Type"]) == (503, "text/html; charset=utf-8")
            page = html.document_fromstring(body)
            assert [page.findtext(f".//{tag}") for tag in ("title", "h1")] == ["No pages yet"] * 2
            assert page.xpath("//pre[@data-trouble]/text()") == ["no rule <b>"]
            assert page.xpath("//p/text()") == ["When that is mended, the pages come by themselves."]
            assert page.xpath("//script/@src") == ["/-/reload.js"]
            assert stray(page) == []
        assert one.ask("/gate.css")[0] == 404
        assert json.loads(one.ask("/-/reload?")[2]) == {"version": 0, "trouble": "no rule <b>"}
        one.failing = None
        one.put(settings, "mended")
        assert one.until(lambda: one.ask("/")[0] == 200)
        assert one.until(lambda: one.told[2:] == ["made anew"])


@pytest.mark.parametrize(
    "failing",
    [Trouble("no folder"), SettingsTrouble("no file", None), SettingsTrouble("gone", "/nowhere/x.yaml"), KeyError("x")],
)
def test_what_fails_at_first_is_raised_and_nothing_listens(tmp_path: Path, failing: Exception) -> None:
    one = Site(tmp_path)
    one.failing = failing
    with pytest.raises(type(failing)):
        one.serving.run()
    assert one.told == []
    with pytest.raises(ConnectionRefusedError):
        one.ask("/")


def test_nothing_listens_once_it_has_been_stopped(tmp_path: Path) -> None:
    with running(Site(tmp_path)) as one:
        assert one.serving.address.startswith("http://127.0.0.1:")
        assert one.ask("/")[0] == 200
    with pytest.raises(ConnectionRefusedError):
        one.ask("/")


def test_an_address_of_ipv6_is_listened_at_where_there_is_any(tmp_path: Path) -> None:
    """Its address is in brackets (RFC 3986, section 3.2.2)."""
    try:
        with socket.socket(socket.AF_INET6) as known:
            known.bind(("::1", 0))
    except OSError:
        with pytest.raises(Trouble, match="nothing can be served at ::1:0"):
            Serving(lambda: None, [], str(tmp_path), host="::1")
        return
    with running(Site(tmp_path, "::1")) as one:
        assert one.serving.address.startswith("http://[::1]:")
        assert one.ask("/")[0] == 200


def test_a_port_that_is_taken_is_said(site: Site) -> None:
    port = int(site.serving.address.rsplit(":", 1)[1].strip("/"))
    with pytest.raises(Trouble, match=rf"^nothing can be served at 127\.0\.0\.1:{port} \(Address already in use\)$"):
        Serving(lambda: None, [], str(site.out), port=port)


@pytest.mark.parametrize(
    ("host", "port", "why"),
    [("127.0.0.1", 70000, r"[a-z(): ]*port must be 0-65535\.?"), ("nowhere.invalid", 80, r"\w[^(\[]*")],
)
def test_where_nothing_can_be_served_is_said(tmp_path: Path, host: str, port: int, why: str) -> None:
    with pytest.raises(Trouble, match=rf"^nothing can be served at {host}:{port} \({why}\)$"):
        Serving(lambda: None, [], str(tmp_path), host=host, port=port)


def test_a_failure_of_ours_is_not_silent_and_an_answer_is(
    site: Site, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    site.ask("/")
    site.ask("/nowhere.css")
    assert capfd.readouterr().err == ""

    def fail() -> bytes:
        raise KeyError("a fault of ours")

    monkeypatch.setattr(served, "gone_page", fail)
    with pytest.raises(OSError, match="closed"):
        site.ask("/nowhere.html")
    assert "a fault of ours" in capfd.readouterr().err
