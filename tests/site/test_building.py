"""A whole build: what is in the folder, that it is the same every time, and that a failure leaves the old site."""

import hashlib
import json
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urldefrag

import pytest
from sitekit import SHORT_ROW, Site

from lintarsia.chart.content import chart_fingerprint
from lintarsia.cli.main import main
from lintarsia.publishing.site.building import build_site
from lintarsia.publishing.site.makers import chart as work
from lintarsia.reading import read_chart
from lintarsia.rules.rulebook import house_rulebook


def digest(folder: Path) -> dict[str, str]:
    return {
        str(file.relative_to(folder)): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


class Links(HTMLParser):
    """Every address and every id of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in ("href", "src") and value is not None:
                self.links.append(value)
            if name == "id" and value is not None:
                self.ids.append(value)


def read(file: Path) -> Links:
    links = Links()
    links.feed(file.read_text(encoding="utf-8"))
    return links


def test_every_chart_rule_and_guide_has_its_page(site: Site) -> None:
    pages = {str(p.relative_to(site.folder)) for p in site.folder.rglob("*.html")}
    jumpers = {"lighthouse-jumper-front", "little-boat-jumper"}
    charts = {"bag-pattern", "gate", "hats/ring", "night-owl-mitten", "orchard-bag", "torn", *jumpers}
    charts |= {f"bag-pattern/{piece}" for piece in ("front", "ring-small", "ring-large")}
    assert pages == (
        {"index.html", "mine.html", "search.html", "rules/index.html"}
        | {f"charts/{name}.html" for name in charts}
        | {"changes/hats/ring.html", "changes/bag-pattern.html"}
        | {f"rules/{name}.html" for name in house_rulebook().names}
        | {f"guide/{name}.html" for name in ("reading", "techniques", "hands", "necks-and-tubes", "infants")}
    )


def test_every_link_leads_somewhere_and_every_id_is_there_once(site: Site) -> None:
    pages = {file: read(file) for file in site.folder.rglob("*.html")}
    for file, page in pages.items():
        assert len(page.ids) == len(set(page.ids)), file
        for link in page.links:
            address, anchor = urldefrag(unquote(link))
            if address.startswith("https://knits.example/"):
                continue
            target = (file.parent / address).resolve() if address else file
            assert target.is_relative_to(site.folder), f"{file}: {link}"
            assert target.is_file(), f"{file}: {link}"
            if re.fullmatch(r"row-[0-9]+-s[0-9-]+", anchor):  # stitches, for scripts: row-14-s7-9
                anchor = anchor.partition("-s")[0]
            if anchor:
                assert anchor in pages[target].ids, f"{file}: {link}"


def test_the_report_is_the_one_of_check(charts: Path, site: Site, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    main(["check", str(charts), "--format", "json"])
    said = json.loads(capfdbinary.readouterr().out.replace(f"{charts}/".encode(), b""))
    told = json.loads((site.folder / "report.json").read_text())
    fingerprints = told.pop("fingerprints")
    assert said["looked_at"].pop("knit") == 1, "which the site has no page of, and does not judge"
    assert told["looked_at"].pop("knit") == 0
    assert told == said
    assert "torn.chart.yaml" not in fingerprints, "what cannot be read has none"
    gate = read_chart("gate.chart.yaml", (charts / "gate.chart.yaml").read_bytes()).chart
    assert gate is not None
    assert fingerprints["gate.chart.yaml"] == chart_fingerprint(gate)


def test_pages_do_not_tell_of_the_makers_disk(charts: Path, site: Site) -> None:
    """The charts were named by an absolute path; what is published names them below that folder."""
    for file in sorted(site.folder.rglob("*")):
        if file.is_file():
            assert str(charts).encode() not in file.read_bytes(), file


@pytest.fixture(scope="module")
def by_one_process(charts: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Today, by a hash seed of its own."""
    folder = tmp_path_factory.mktemp("alone") / "out"
    build_site([str(charts)], str(folder), title="Test knits", cores=1)
    return digest(folder)


@pytest.mark.slow
def test_the_same_charts_give_the_same_bytes_with_one_process_or_several(
    charts: Path, tmp_path: Path, by_one_process: dict[str, str]
) -> None:
    build_site([str(charts)], str(tmp_path / "out"), title="Test knits", cores=2)
    assert digest(tmp_path / "out") == by_one_process


@pytest.mark.slow
def test_another_day_and_another_hash_seed_give_the_same_bytes(
    charts: Path, tmp_path: Path, by_one_process: dict[str, str]
) -> None:
    """This process has a hash seed by chance, which orders its sets in one way of many."""
    environ = os.environ | {"PYTHONHASHSEED": "2", "SOURCE_DATE_EPOCH": "86400"}
    command = [sys.executable, "-m", "lintarsia", "site", str(charts), "--output", str(tmp_path / "out")]
    subprocess.run([*command, "--title", "Test knits"], env=environ, check=True, capture_output=True)
    assert digest(tmp_path / "out") == by_one_process


def test_a_chart_that_comes_or_goes_leaves_the_others_pages_where_they_were(tmp_path: Path) -> None:
    charts, out = tmp_path / "charts", tmp_path / "out"
    charts.mkdir()
    (charts / "m.chart.yaml").write_text(SHORT_ROW)
    build_site([str(charts)], str(out))
    before = digest(out)
    for name in ("a", "z"):
        (charts / f"{name}.chart.yaml").write_text(SHORT_ROW)
    build_site([str(charts)], str(out))
    after = digest(out)
    assert {name: after[name] for name in before if name.startswith("charts/")} == {
        name: mark for name, mark in before.items() if name.startswith("charts/")
    }


def test_links_to_results_survive_rows_added_elsewhere(tmp_path: Path) -> None:
    charts, out = tmp_path / "charts", tmp_path / "out"
    charts.mkdir()
    anchors = []
    for text in (SHORT_ROW, SHORT_ROW.replace("chart: |\n", "chart: |\n  BBBBBBBB\n  BBBBBBBB\n")):
        (charts / "m.chart.yaml").write_text(text)
        build_site([str(charts)], str(out))
        page = (out / "charts" / "m.html").read_text()
        anchors.append(set(re.findall(r'id="(result-[^"]+)"', page)))
    assert anchors[0]
    assert anchors[0] <= anchors[1]


def test_a_build_that_fails_leaves_the_old_site(charts: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "out"
    build_site([str(charts)], str(out), cores=1)
    before = digest(out)

    def fail(*_: object) -> None:
        raise RuntimeError("the drawing fell over")

    monkeypatch.setattr(work, "draw", fail)
    with pytest.raises(RuntimeError, match="the drawing fell over"):
        build_site([str(charts)], str(out), cores=1)
    assert digest(out) == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out"]


def test_a_path_that_is_not_there_is_said_and_nothing_is_made(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["site", str(tmp_path / "nowhere"), "--output", str(tmp_path / "out")]) == 2
    assert "there is no file or folder" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_no_folder_named_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["site", "."]) == 2
    assert "--output" in capsys.readouterr().err


def test_an_empty_folder_makes_a_site_that_says_so(tmp_path: Path) -> None:
    (tmp_path / "charts").mkdir()
    build_site([str(tmp_path / "charts")], str(tmp_path / "out"))
    assert "There are no charts here yet" in (tmp_path / "out" / "index.html").read_text()


def test_what_blocks_comes_first(site: Site) -> None:
    page = (site.folder / "index.html").read_text()
    order = re.findall(r'<a class="name" href="[^"]+">([^<]+)</a>', page)
    assert set(order[:2]) == {"Gate with a fault", "torn.chart.yaml"}


def test_previews_say_what_the_page_is(site: Site) -> None:
    page = (site.folder / "charts" / "night-owl-mitten.html").read_text()
    assert '<meta property="og:title" content="Night owl, mitten back">' in page
    assert '<meta property="og:url" content="https://knits.example/group/charts/night-owl-mitten.html">' in page
    image = "https://knits.example/group/charts/night-owl-mitten/card.png"
    assert f'<meta property="og:image" content="{image}">' in page
    assert (site.folder / "charts" / "night-owl-mitten" / "card.png").read_bytes()[:8] == b"\x89PNG\r\n\x1a\n"
    assert "28 stitches" in page.split('property="og:description"')[1][:80]


@pytest.mark.slow
def test_a_chart_of_nothing_but_specks_makes_a_page_that_a_phone_can_hold(tmp_path: Path) -> None:
    """One in five thousand charts is a photograph turned to stitches. Its page leaves out what nobody could follow."""
    rows = "".join("  " + "".join("BW"[(x * x + 3 * x * y + y) % 7 % 2] for x in range(130)) + "\n" for y in range(130))
    (tmp_path / "specks.chart.yaml").write_text(SHORT_ROW.split("chart: |")[0] + "chart: |\n" + rows)
    build_site([str(tmp_path / "specks.chart.yaml")], str(tmp_path / "out"))
    page = (tmp_path / "out" / "charts" / "specks.html").read_text()
    assert len(page) < 5_000_000
    assert 'id="c-layer-supplies"' not in page
    assert page.count('<tr id="row-') == 130
    assert page.count('class="spot"') <= 200 * page.count('class="result ')
