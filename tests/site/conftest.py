"""A built site, served from this machine only, and a real browser that looks at it."""

import hashlib
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from hostkit import build_host
from playwright.sync_api import Browser, sync_playwright
from sitekit import CUSHION, EXAMPLES, HERE, LOG, ROUNDS, SHORT_ROW, TORN, Look, Site, serving

from lintarsia.publishing.site.building import build_site


@pytest.fixture(scope="session")
def charts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A repository of charts: some fine, one that blocks, one in rounds that differs from v0.9 by a stitch in round 1,
    one that cannot be read."""
    folder = tmp_path_factory.mktemp("charts")
    for name in ("night-owl-mitten", "orchard-bag", "little-boat-jumper", "lighthouse-jumper-front"):
        shutil.copy(EXAMPLES / f"{name}.chart.yaml", folder)
    (folder / "hats").mkdir()
    ring, tail = folder / "hats" / "ring.chart.yaml", "  GCCCGCCCGCCCGCCCGCCCG\n"
    ring.write_text(ROUNDS.replace(tail, tail.replace("  GC", "  CC")), encoding="utf-8")
    (folder / "bag.pattern.yaml").write_text(CUSHION, encoding="utf-8")
    _commit(folder, "v0.9")
    ring.write_text(ROUNDS, encoding="utf-8")
    (folder / "gate.chart.yaml").write_text(SHORT_ROW, encoding="utf-8")
    (folder / "torn.chart.yaml").write_text(TORN, encoding="utf-8")
    (folder / "bag.pattern.yaml").write_text(CUSHION, encoding="utf-8")
    (folder / "wren.knit.yaml").write_text(LOG, encoding="utf-8")
    _commit(folder, "v1.0")
    return folder


def _commit(folder: Path, tag: str) -> None:
    """All that stands in the folder, as a made-up designer; tagged."""
    who = ("-c", "user.name=Designer", "-c", "user.email=designer@example.org")
    for words in (("init", "-q"), ("add", "-A"), (*who, "commit", "-q", "-m", "state"), ("tag", tag)):
        subprocess.run(["git", *words], cwd=folder, check=True, capture_output=True)


@pytest.fixture(scope="session")
def site(charts: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    folder = tmp_path_factory.mktemp("site") / "out"
    build_site(
        [str(charts)], str(folder), title="Test knits", base_url="https://knits.example/group/", changes_from=["v0.9"]
    )
    with serving(folder) as address:
        yield Site(folder, address)


@pytest.fixture(scope="session")
def host(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A site of somebody else's with charts in it; tests say of which theme."""
    folder = tmp_path_factory.mktemp(request.param)
    (folder / "out").mkdir()
    with serving(folder / "out") as address:
        yield build_host(folder, request.param, address)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    executable = shutil.which("chromium")
    assert executable, "there is no chromium; these tests need it (Debian: apt-get install chromium)"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=executable, args=["--no-sandbox", "--disable-gpu"])
        yield browser
        browser.close()


@pytest.fixture
def look(site: Site, browser: Browser) -> Iterator[Look]:
    look = Look(site, browser)
    yield look
    look.close()
    assert look.complaints == []
    assert [url for url in site.asked if not url.startswith((site.address, "data:", "blob:"))] == []


@pytest.fixture(scope="session")
def npm(request: pytest.FixtureRequest) -> Path:
    """The folder of the checkers that come from npm, installed when they are first needed.

    Installed aside and then renamed, since several processes may run these tests at once.
    """
    cache = getattr(request.config, "cache", None)  # without, where pytest is told to keep nothing
    wanted = (HERE / "package.json").read_bytes()
    shelf = Path(cache.mkdir("site-npm")) if cache else Path(tempfile.gettempdir(), "lintarsia-site-npm")
    shelf.mkdir(exist_ok=True)
    folder = shelf / hashlib.sha256(wanted).hexdigest()[:16]
    if not folder.exists():
        npm = shutil.which("npm")
        assert npm, "there is no npm; the checks of the pages need it (Debian: apt-get install npm)"
        with tempfile.TemporaryDirectory(dir=shelf) as aside:
            made = Path(aside, "made")
            made.mkdir()
            (made / "package.json").write_bytes(wanted)
            options = ["--no-audit", "--no-fund", "--ignore-scripts", "--no-package-lock", "--no-update-notifier"]
            done = subprocess.run([npm, "install", *options], cwd=made, capture_output=True, text=True, check=False)
            assert done.returncode == 0, f"npm could not install the checkers:\n{done.stderr}"
            with suppress(OSError):  # another process was faster
                made.rename(folder)
    return folder / "node_modules"
