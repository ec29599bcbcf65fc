"""What state of a chart a drawn file says that it shows: metadata of SVG, PNG and PDF, and the heading of sheets."""

import io
import re
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import pytest
from drawn import make_chart
from PIL import Image
from PIL.PngImagePlugin import PngImageFile

from lintarsia.chart.content import chart_fingerprint
from lintarsia.cli.exits import OK
from lintarsia.cli.main import main
from lintarsia.drawing import sheets
from lintarsia.drawing.export import to_pdf, to_png
from lintarsia.drawing.stamp import stamp_of, stamped
from lintarsia.reading import read_chart

TEXT = """\
lintarsia: 1
title: Moon
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
chart: |
  BBBBBB
  BBBBBB
"""


@pytest.fixture
def moon(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    Path("moon.chart.yaml").write_text(TEXT)
    chart = read_chart("moon.chart.yaml").chart
    assert chart is not None
    return chart_fingerprint(chart)


def test_every_kind_of_file_says_its_fingerprint(moon: str) -> None:
    """SVG 1.1 (21 Metadata), PNG (W3C 2003, 11.3.4 textual information), PDF (ISO 32000-1, 14.3.3: Keywords)."""
    for ending in ("svg", "png", "pdf"):
        assert main(["draw", "moon.chart.yaml", "-o", f"moon.{ending}"]) == OK
    tree = ElementTree.parse("moon.svg")
    [told] = tree.iter("{http://purl.org/dc/elements/1.1/}identifier")
    assert told.text == f"fingerprint {moon}"
    with Image.open("moon.png") as picture:
        picture.load()
        assert isinstance(picture, PngImageFile)
        assert picture.text == {"Description": f"fingerprint {moon}"}
    assert f"fingerprint {moon}".encode() in Path("moon.pdf").read_bytes()


def test_in_a_repository_it_says_the_commit_too(moon: str) -> None:
    def git(*words: str) -> None:
        subprocess.run(["git", "-c", "user.name=N", "-c", "user.email=n@example.org", *words], check=True)

    git("init", "-q")
    main(["draw", "moon.chart.yaml", "-o", "before.svg"])
    git("add", "moon.chart.yaml")
    git("commit", "-qm", "one", "--date", "2026-11-05T12:00:00")
    for name, change in (("clean", ""), ("changed", "# a note\n")):
        Path("moon.chart.yaml").write_text(TEXT + change)
        main(["draw", "moon.chart.yaml", "-o", f"{name}.svg", "--as", "sheets"])
    words = {name: stamp_of(Path(f"{name}.svg").read_text()) for name in ("before", "clean", "changed")}
    assert words["before"] == f"fingerprint {moon}"
    assert re.fullmatch(f"fingerprint {moon} · commit [0-9a-f]{{7,}}, [0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}}", words["clean"])
    assert words["changed"] == words["clean"].replace("commit", "changed since commit")
    assert f">{words['clean']}</text>" in Path("clean.svg").read_text(), "printed, too"


def test_sheets_bear_the_fingerprint_whoever_makes_them() -> None:
    chart = make_chart()
    for svg in sheets(chart):
        assert f">fingerprint {chart_fingerprint(chart)}</text>" in svg


def test_hostile_words_stay_words() -> None:
    svg = stamped(sheets(make_chart())[0], 'version </metadata><script> & "1"')
    ElementTree.fromstring(svg)
    assert stamp_of(svg) == 'version </metadata><script> & "1"'
    assert "<script>" not in svg
    with Image.open(io.BytesIO(to_png(svg, 60))) as picture:
        picture.load()
        assert isinstance(picture, PngImageFile)
        assert picture.text["Description"] == stamp_of(svg)
    assert to_pdf([svg, svg]).startswith(b"%PDF-")
