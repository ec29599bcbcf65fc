"""`lintarsia site` as a designer runs it: no chart, repository or file of hers goes, whatever folder she names."""

import shutil
import sys
from contextlib import chdir
from html.parser import HTMLParser
from pathlib import Path

import pytest
from sitekit import ROUNDS, SHORT_ROW

from lintarsia.cli.main import main
from lintarsia.publishing.site.building import build_site
from lintarsia.publishing.site.marker import could_be_made, read_marker

SETTINGS = "rules: {area/single-stitch: off}\n"
BAG = "lintarsia-pattern: 1\ntitle: Bag\npieces:\n  ring: {chart: docs/mine/ring.chart.yaml}\n"


@pytest.fixture(scope="module")
def with_a_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    with chdir(folder):
        Path("c").mkdir()
        Path("c/gate.chart.yaml").write_text(SHORT_ROW)
        build_site(["c"], "docs", cores=1)
    return folder


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, with_a_site: Path) -> Path:
    """A folder with a chart and with the site made from it, in which the designer has put things of her own since."""
    monkeypatch.chdir(tmp_path)
    shutil.copytree(with_a_site, tmp_path, dirs_exist_ok=True)
    (tmp_path / "docs" / "mine").mkdir()
    (tmp_path / "docs" / "mine" / "ring.chart.yaml").write_text(ROUNDS)
    (tmp_path / "docs" / "CNAME").write_text("knits.example")
    return tmp_path


def files(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_every_file_of_a_site_could_be_one() -> None:
    made = read_marker("docs")
    assert made is not None
    assert {"index.html", "charts/gate.html", "charts/gate.fabric.svg", "report.json"} <= made
    assert all(map(could_be_made, made))
    ours = {str(p.relative_to("docs")) for p in Path("docs").rglob("*") if p.is_file()}
    assert ours - made == {".lintarsia-site", "CNAME", "mine/ring.chart.yaml"}


def refused(here: Path, capsys: pytest.CaptureFixture[str], *argv: str) -> str:
    before = files(here)
    assert main(["site", *argv]) == 2
    assert files(here) == before
    said = capsys.readouterr()
    assert said.out == ""
    return said.err


@pytest.mark.parametrize("path", ["docs/mine", "docs/mine/ring.chart.yaml", "link.chart.yaml", "c/../docs", "docs"])
def test_an_output_that_holds_a_chart_of_this_run(path: str, here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("link.chart.yaml").symlink_to("docs/mine/ring.chart.yaml")
    told = refused(here, capsys, path, "-o", "docs")
    assert told.startswith("lintarsia: the folder 'docs' holds '")
    assert told.endswith("which this site is made from; name another folder\n")


def test_an_output_that_is_a_link_to_the_charts(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("out").symlink_to("docs")
    assert "holds 'docs/mine/ring.chart.yaml'" in refused(here, capsys, "docs/mine", "-o", "out")


def test_an_output_that_holds_a_pattern_or_one_of_its_charts(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("bag.pattern.yaml").write_text(BAG)
    assert "holds 'docs/mine/ring.chart.yaml'" in refused(here, capsys, "bag.pattern.yaml", "-o", "docs")
    Path("docs/bag.pattern.yaml").write_text(BAG.replace("docs/", ""))
    assert "the folder 'docs' holds" in refused(here, capsys, "docs/bag.pattern.yaml", "-o", "docs")


def test_an_output_that_holds_the_settings(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("docs/lintarsia.yaml").write_text(SETTINGS)
    told = refused(here, capsys, "c", "-o", "docs", "--settings", "docs/lintarsia.yaml")
    assert "lintarsia.yaml', which this site is made from" in told


def test_the_folder_above(here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir("docs/mine")
    assert "is the folder this runs in, or holds it" in refused(here, capsys, ".", "-o", "..")


def test_charts_to_which_a_site_was_copied(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name, content in files(here / "docs").items():
        (here / "c" / name).parent.mkdir(parents=True, exist_ok=True)
        (here / "c" / name).write_bytes(content)
    told = refused(here, capsys, "c/gate.chart.yaml", "-o", "c")
    assert "the folder 'c' holds 'c/gate.chart.yaml'" in told


def test_a_repository(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (here / "docs" / ".git").mkdir()
    (here / "docs" / ".git" / "HEAD").write_text("ref: refs/heads/main")
    assert "holds '.git', a repository" in refused(here, capsys, "c", "-o", "docs")


def test_a_site_inside_the_charts_is_made_anew_and_keeps_what_is_hers(here: Path) -> None:
    Path("c/out").mkdir()
    for text in (SHORT_ROW, ROUNDS):
        Path("c/gate.chart.yaml").write_text(text)
        assert main(["site", "c", "-o", "c/out"]) == 0
        Path("c/out/CNAME").write_text("knits.example")
    assert "Ring of leaves" in Path("c/out/charts/gate.html").read_text()
    assert Path("c/out/CNAME").exists()


def test_a_chart_that_goes_takes_its_page_with_it_and_nothing_else(here: Path) -> None:
    Path("c/ring.chart.yaml").write_text(ROUNDS)
    assert main(["site", "c", "-o", "docs"]) == 0
    Path("c/gate.chart.yaml").unlink()
    assert main(["site", "c", "-o", "docs"]) == 0
    assert not Path("docs/charts/gate.html").exists()
    assert Path("docs/charts/ring.html").exists()
    assert Path("docs/mine/ring.chart.yaml").read_text() == ROUNDS
    assert Path("docs/CNAME").read_text() == "knits.example"


class Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.scripts: list[str | None] = []
        self.addresses: list[str | None] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        if tag == "script" and said.get("type") != "application/json":  # which is data, and never run
            self.scripts.append(said.get("src"))
        if said.get("property") in ("og:url", "og:image"):
            self.addresses.append(said.get("content"))
        if said.get("rel") == "canonical":
            self.addresses.append(said.get("href"))


def test_a_base_url_is_an_address_in_every_tag(here: Path) -> None:
    base = 'https://knits.example/"><script>alert(1)</script>&amp/'
    assert main(["site", "c", "-o", "docs", "--base-url", base]) == 0
    for file in Path("docs").rglob("*.html"):
        tags = Tags()
        tags.feed(file.read_text())
        assert None not in tags.scripts, file
        assert len(tags.addresses) >= 2, file
        assert all(address and address.startswith(base) for address in tags.addresses), file


@pytest.mark.parametrize("missing", ["mkdocs", "jinja2"])
@pytest.mark.parametrize("serve", [True, False])
def test_without_the_extra_it_says_what_to_install(
    missing: str, serve: bool, here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("lintarsia.ground.installing.how_to_install", lambda extra: f"install {extra}")
    for name in [name for name in sys.modules if name.startswith(("lintarsia.publishing", missing))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, missing, None)
    told = refused(here, capsys, "c", *(["--serve", "--port", "0"] if serve else ["-o", "docs"]))
    assert told == "lintarsia: pages need one more library: install site\n"
