"""The plugin inside a designer's own MkDocs site, with somebody else's theme."""

import subprocess
import sys
from pathlib import Path

import pytest
from ownsite import Done, mkdocs_build
from sitekit import SHORT_ROW

CONFIG = """\
site_name: Knits
theme: {theme}
strict: true
nav:
  - index.md
  - Charts: {home}/index.md
plugins:
  - search
  - lintarsia:
      charts: [{charts}]
{more}
"""


HOSTILE = "</title><script>window.pwned=1</script><img src=x onerror=alert(1)>"


def lay_out(
    folder: Path, *, theme: str = "mkdocs", more: str = "", charts: str = "charts", home: str = "patterns"
) -> None:
    (folder / "docs").mkdir()
    (folder / "charts").mkdir()
    (folder / "docs" / "index.md").write_text(f"# Home\n\nSee [the gate]({home}/charts/gate.md).\n")
    (folder / "charts" / "gate.chart.yaml").write_text(SHORT_ROW)
    (folder / "mkdocs.yml").write_text(CONFIG.format(theme=theme, more=more, charts=charts, home=home))


def make(folder: Path, **options: str) -> Done:
    """Lay out a site and build it in this process."""
    lay_out(folder, **options)
    return mkdocs_build(folder, "--quiet")


def by_the_command(folder: Path) -> "subprocess.CompletedProcess[str]":
    command = [sys.executable, "-m", "mkdocs", "build", "--site-dir", "out", "--quiet"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


@pytest.fixture(scope="module", params=["mkdocs", "readthedocs", "material"])
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site of two charts in one of the themes; the first as designers build theirs, by the command."""
    folder = tmp_path_factory.mktemp(request.param)
    lay_out(folder, theme=request.param)
    (folder / "charts" / "hostile.chart.yaml").write_text(SHORT_ROW.replace("Gate with a fault", HOSTILE))
    if request.param == "mkdocs":
        done = by_the_command(folder)
        assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    else:
        assert mkdocs_build(folder, "--quiet") == Done(0, "")
    return folder / "out"


def test_charts_appear_in_a_designer_s_own_site(built: Path) -> None:
    page = (built / "patterns" / "charts" / "gate" / "index.html").read_text()
    assert '<article data-part="hosted" class="lintarsia chart-page"' in page
    assert '<svg xmlns="http://www.w3.org/2000/svg" class="lx lx-chart"' in page
    assert page.count("<h1") == 1
    assert 'href="../../assets/lintarsia.css"' in page
    assert 'src="../../assets/hosted.js"' in page
    assert (built / "patterns" / "assets" / "pages.js").exists()
    assert not (built / "patterns" / "assets" / "knit.js").exists()
    assert 'href="../../rules/grid/stitch-count/"' in page
    assert (built / "patterns" / "charts" / "gate.fabric.svg").exists()
    assert (built / "patterns" / "report.json").exists()
    assert 'href="patterns/charts/gate/"' in (built / "index.html").read_text()


def test_a_hostile_title_is_text_in_a_host_theme_too(built: Path) -> None:
    """Themes of MkDocs do not escape titles; what a chart is called must have been escaped before they get it."""
    assert "window.pwned" in (built / "patterns" / "charts" / "hostile" / "index.html").read_text()
    for file in built.rglob("*.html"):
        assert "<script>window.pwned" not in file.read_text(), file
        assert "<img src=x" not in file.read_text(), file


@pytest.mark.parametrize("into", ["../out", "/", "a/../../b", "a b", ".."])
def test_pages_cannot_be_put_elsewhere(tmp_path: Path, into: str) -> None:
    done = make(tmp_path, more=f"      into: '{into}'")
    assert done.returncode != 0
    assert "is no folder of the site" in done.said


def test_charts_that_are_not_there_are_said(tmp_path: Path) -> None:
    done = make(tmp_path, more="      into: patterns\n", charts="nowhere")
    assert done.returncode != 0
    assert "there is no file or folder" in done.said


def test_what_is_refused_ends_the_command_in_words(tmp_path: Path) -> None:
    """By the command: an exit status, and no traceback."""
    lay_out(tmp_path, charts="nowhere")
    done = by_the_command(tmp_path)
    assert done.returncode != 0
    assert "there is no file or folder" in done.stderr
    assert "Traceback" not in done.stderr
