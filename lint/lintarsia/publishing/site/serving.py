"""The pages shown from this machine, and made anew when a chart changes.

Pages that are looked at here are given one script more, which asks now and then whether there is something newer. It
comes from this server and is in no folder that is published.
"""

import json
import os
import socket
import sys
import threading
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

from lintarsia.ground.trouble import SettingsTrouble, Trouble
from lintarsia.publishing.site.servedpages import RELOAD, faulty_page, gone_page, language_of, reload_script
from lintarsia.telling.catalogues import speaking

ASK_SECONDS, WAIT_SECONDS = 0.5, 20.0  # between looks at the files; how long a question may stay unanswered
HTML = "text/html; charset=utf-8"

State = dict[str, tuple[int, int]]


class Serving:
    """Serves the folder `site`. `build` makes it; it raises Trouble where it cannot, and the old pages stay. `language`
    is what was asked for, "" where the settings say."""

    def __init__(
        self,
        build: Callable[[], object],
        watched: Sequence[str],
        site: str,
        *,
        host: str = "127.0.0.1",
        port: int = 0,
        language: str = "",
        tell: Callable[[str], None] = print,
    ) -> None:
        self._build = build
        self._watched = watched
        self._tell = tell
        self._language = partial(language_of, site, language)
        self._settings: str | None = None  # which were faulty at first
        self.version = 0
        self.trouble = ""  # why the pages are not as the files are, for those who look at them
        self.newer = threading.Condition()
        try:
            self._server = _Server((host, port), partial(_Pages, self, directory=site))
        except (OSError, OverflowError) as failure:
            reason = getattr(failure, "strerror", None) or str(failure)
            raise Trouble(f"nothing can be served at {host}:{port} ({reason})") from None
        self._stopping = threading.Event()

    @property
    def address(self) -> str:
        listening: Any = self._server.server_address  # of IPv6 there is more to it than host and port
        host, port = listening[:2]
        return f"http://{f'[{host}]' if ':' in host else host}:{port}/"

    def run(self) -> None:
        """Build, serve, and build again whenever a watched file changes, until `stop` or an interrupt.

        Raises Trouble where the first build does, but for faulty settings: those wait to be mended, like all that
        comes later.
        """
        state = self._look()
        try:
            self._build()
        except SettingsTrouble as trouble:
            if not os.path.exists(trouble.file or ""):
                self._server.server_close()
                raise
            self.trouble, self._settings = str(trouble), trouble.file
            self._tell(f"there are no pages yet: {trouble}")
        except BaseException:
            self._server.server_close()
            raise
        # An interrupt waits for the server's next look at whether it is to stop.
        thread = threading.Thread(target=self._server.serve_forever, args=(ASK_SECONDS / 10,), daemon=True)
        thread.start()
        self._tell(f"the pages are at {self.address} (Ctrl-C stops)")
        try:
            while not self._stopping.wait(ASK_SECONDS):
                now = self._look()
                if now != state:
                    state = now
                    self._again()
        finally:
            self._server.shutdown()
            self._server.server_close()

    def speaking(self) -> AbstractContextManager[None]:
        """Speak the language of the pages for the time of a `with`."""
        return speaking(self._language(self._settings))

    def stop(self) -> None:
        self._stopping.set()

    def _again(self) -> None:
        try:
            self._build()
        except Trouble as trouble:
            self._come(str(trouble))
            self._tell(f"the pages stay as they were: {trouble}")
            return
        self._come("")
        self._tell("made anew")

    def _come(self, trouble: str) -> None:
        with self.newer:
            self.version, self.trouble = self.version + 1, trouble
            self.newer.notify_all()

    def _look(self) -> State:
        """Size and time of every chart and settings file that is watched."""
        state: State = {}
        for path in self._watched:
            for file in _files(path):
                try:
                    found = os.stat(file)
                except OSError:
                    continue  # gone meanwhile
                state[file] = (found.st_mtime_ns, found.st_size)
        return state


def _files(path: str) -> list[str]:
    if not os.path.isdir(path):
        return [path]
    found = []
    for folder, inner, names in os.walk(path):
        inner[:] = sorted(name for name in inner if not name.startswith("."))
        found += [os.path.join(folder, name) for name in names if name.endswith((".yaml", ".yml"))]
    return found


class _Server(ThreadingHTTPServer):
    """Threads of its answers end with the process. A host with a colon is an address of IPv6."""

    def __init__(self, address: tuple[str, int], handler: Callable[..., SimpleHTTPRequestHandler]) -> None:
        self.address_family = socket.AF_INET6 if ":" in address[0] else socket.AF_INET
        super().__init__(address, handler)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that leaves before it has its answer, as all do on the way to another page, is no failure."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


class _Pages(SimpleHTTPRequestHandler):
    """Files of the site; never listings of folders."""

    server_version = "lintarsia"
    sys_version = ""

    def __init__(self, serving: Serving, *args: Any, **kwargs: Any) -> None:
        self._serving = serving
        super().__init__(*args, **kwargs)

    def do_GET(self) -> None:
        path, _, query = self.path.partition("?")
        if path == f"{RELOAD}.js":
            with self._serving.speaking():
                self._send(reload_script(), "text/javascript")
        elif path == RELOAD:
            self._send(self._wait(query), "application/json")
        elif (page := self._page()) is not None:
            self._send(page, HTML)
        elif self._would_be_a_page():
            with self._serving.speaking():
                self._send_none()
        else:
            self._file(super().do_GET)

    def _send_none(self) -> None:
        """That there is no such page, or none at all yet."""
        trouble = self._serving.trouble
        if trouble and not os.path.exists(os.path.join(self.directory, "index.html")):
            self._send(faulty_page(trouble), HTML, HTTPStatus.SERVICE_UNAVAILABLE)
        else:
            self._send(gone_page(), HTML, HTTPStatus.NOT_FOUND)

    def do_HEAD(self) -> None:
        self._file(super().do_HEAD)

    def _file(self, answer: Callable[[], None]) -> None:
        try:
            answer()
        except ValueError:  # no name that a file can have
            self.send_error(HTTPStatus.NOT_FOUND)

    def _wait(self, known: str) -> bytes:
        serving = self._serving
        with serving.newer:
            if known == str(serving.version):
                serving.newer.wait(WAIT_SECONDS)
            return json.dumps({"version": serving.version, "trouble": serving.trouble}).encode()

    def _page(self) -> bytes | None:
        """The page that is asked for, with the script that asks for news; None where there is none."""
        try:
            path = Path(self.translate_path(self.path))
            if path.is_dir():
                path /= "index.html"
            page = path.read_bytes() if path.suffix == ".html" else None
        except (OSError, ValueError):  # gone, perhaps while it was looked for, or no name that a file can have
            return None
        return page and page.replace(b"</head>", f'<script src="{RELOAD}.js" defer></script></head>'.encode(), 1)

    def _would_be_a_page(self) -> bool:
        name = self.path.partition("?")[0].rpartition("/")[2]
        return name.endswith(".html") or "." not in name

    def _send(self, content: bytes, kind: str, status: HTTPStatus = HTTPStatus.OK) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(content)

    def list_directory(self, path: Any) -> None:
        self.send_error(HTTPStatus.NOT_FOUND)

    def end_headers(self) -> None:
        self.send_header("X-Content-Type-Options", "nosniff")
        super().end_headers()

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing: whoever looks at the pages sees for themselves."""
