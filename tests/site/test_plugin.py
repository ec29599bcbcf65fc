"""The plugin inside a designer's own MkDocs site, with somebody else's theme."""

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


def make(
    folder: Path, *, theme: str = "mkdocs", more: str = "", title: str = "Gate with a fault", charts: str = "charts",
    home: str = "patterns",
) -> Done:  # fmt: skip
    (folder / "docs").mkdir()
    (folder / "charts").mkdir()
    (folder / "docs" / "index.md").write_text(f"# Home\n\nSee [the gate]({home}/charts/gate.md).\n")
    (folder / "charts" / "gate.chart.yaml").write_text(SHORT_ROW.replace("Gate with a fault", title))
    (folder / "mkdocs.yml").write_text(CONFIG.format(theme=theme, more=more, charts=charts, home=home))
    return mkdocs_build(folder, "--quiet")


@pytest.mark.parametrize("theme", ["mkdocs", "readthedocs", "material"])
def test_charts_appear_in_a_designer_s_own_site(tmp_path: Path, theme: str) -> None:
    done = make(tmp_path, theme=theme)
    assert done.returncode == 0, done.said
    page = (tmp_path / "out" / "patterns" / "charts" / "gate" / "index.html").read_text()
    assert '<article data-part="hosted" class="lintarsia chart-page"' in page
    assert '<svg xmlns="http://www.w3.org/2000/svg" class="lx lx-chart"' in page
    assert page.count("<h1") == 1
    assert 'href="../../assets/lintarsia.css"' in page
    assert 'src="../../assets/hosted.js"' in page
    assert (tmp_path / "out" / "patterns" / "assets" / "pages.js").exists()
    assert not (tmp_path / "out" / "patterns" / "assets" / "knit.js").exists()
    assert 'href="../../rules/grid/stitch-count/"' in page
    assert (tmp_path / "out" / "patterns" / "charts" / "gate.fabric.svg").exists()
    assert (tmp_path / "out" / "patterns" / "report.json").exists()
    assert 'href="patterns/charts/gate/"' in (tmp_path / "out" / "index.html").read_text()


@pytest.mark.parametrize("into", ["../out", "/", "a/../../b", "a b", ".."])
def test_pages_cannot_be_put_elsewhere(tmp_path: Path, into: str) -> None:
    done = make(tmp_path, more=f"      into: '{into}'")
    assert done.returncode != 0
    assert "is no folder of the site" in done.said


def test_charts_that_are_not_there_are_said(tmp_path: Path) -> None:
    done = make(tmp_path, more="      into: patterns\n", charts="nowhere")
    assert "there is no file or folder" in done.said
    assert done.returncode != 0


@pytest.mark.parametrize("theme", ["mkdocs", "readthedocs", "material"])
def test_a_hostile_title_is_text_in_a_host_theme_too(tmp_path: Path, theme: str) -> None:
    """Themes of MkDocs do not escape titles; what a chart is called must have been escaped before they get it."""
    hostile = "</title><script>window.pwned=1</script><img src=x onerror=alert(1)>"
    done = make(tmp_path, theme=theme, title=hostile)
    assert done.returncode == 0, done.said
    for file in (tmp_path / "out").rglob("*.html"):
        assert "<script>window.pwned" not in file.read_text(), file
        assert "<img src=x" not in file.read_text(), file
