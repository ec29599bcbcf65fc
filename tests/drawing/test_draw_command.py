"""`lintarsia draw` from end to end: files, messages, exit statuses; pixels of the PNG, pages of the PDF."""

import io
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from coloraide import Color
from drawn import KEY, SVG, make_chart, parse
from PIL import Image

from folding import slow
from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.main import main
from lintarsia.drawing import bands, chart_geometry, chart_svg, export, fabric_svg
from lintarsia.drawing.bands import _bands as cut
from lintarsia.drawing.export import WIDEST, letters_drawn, page_size, to_pdf, to_png
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.planner import make_plan

TEXT = """\
lintarsia: 1
title: Moon
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  BBBBBB
  BBWWBB
  BBWWBB
  BBBBBB
"""


@pytest.fixture
def moon(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "moon.chart.yaml").write_text(TEXT)
    return "moon.chart.yaml"


@pytest.mark.parametrize("picture", ["chart", "fabric", "back", "paths", "sheets"])
@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
def test_every_picture_in_every_format(moon: str, picture: str, ending: str) -> None:
    assert main(["draw", moon, "--as", picture, "--output", f"out.{ending}", "--width", "300"]) == OK
    data = Path(f"out.{ending}").read_bytes()
    if ending == "svg":
        assert parse(data.decode()).tag == f"{SVG}svg"
    elif ending == "png":
        assert Image.open(io.BytesIO(data)).width == 300
    else:
        assert data.startswith(b"%PDF-")
    assert sorted(p.name for p in Path().iterdir()) == ["moon.chart.yaml", f"out.{ending}"]


def test_without_an_output_the_svg_goes_to_the_screen(moon: str, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["draw", moon]) == OK
    assert parse(capsysbinary.readouterr().out.decode()).get("class") == "lx lx-chart"


def test_layers_are_laid_over_the_chart(moon: str) -> None:
    assert main(["draw", moon, "--over", "ends", "--over", "results", "--output", "m.svg"]) == OK
    groups = [g for g in parse(Path("m.svg").read_text()).iter(f"{SVG}g") if "lx-layer" in (g.get("class") or "")]
    assert "layer-ends" in {g.get("id") for g in groups}
    assert all(g.get("display") is None for g in groups)
    assert "layer-supplies" not in {g.get("id") for g in groups}


def test_many_sheets_are_numbered_or_one_pdf(moon: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path(moon).write_text(TEXT.split("chart: |")[0] + "chart: |\n" + ("  " + "BW" * 45 + "\n") * 130)
    assert main(["draw", moon, "--as", "sheets", "--output", "s.svg"]) == OK
    names = sorted(p.name for p in Path().glob("s-*.svg"))
    assert names == [f"s-{n}.svg" for n in range(1, len(names) + 1)]
    assert len(names) > 1
    assert main(["draw", moon, "--as", "sheets", "--paper", "A4", "--output", "s.pdf"]) == OK
    assert re.findall(rb"/Count (\d+)", Path("s.pdf").read_bytes())[0] == str(len(names)).encode()
    assert main(["draw", moon, "--as", "sheets"]) == CANNOT
    assert f"takes {len(names)} sheets; say where to put them with --output" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "status", "said"),
    [
        (["nowhere.chart.yaml"], CANNOT, "there is no file 'nowhere.chart.yaml'"),
        (["moon.chart.yaml", "--output", "m.gif"], CANNOT, "ends in .gif; expected .svg, .png or .pdf"),
        (["moon.chart.yaml", "--output", "no/such/m.svg"], CANNOT, "'no/such/m.svg' cannot be written"),
        (["moon.chart.yaml", "--as", "fabric", "--over", "ends"], CANNOT, "no meaning with --as fabric"),
        (["bad.chart.yaml"], FOUND, "no picture can be made of this chart"),
    ],
)
def test_what_cannot_be_drawn_is_told(
    moon: str, arguments: list[str], status: int, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("bad.chart.yaml").write_text("title: [")
    assert main(["draw", *arguments]) == status
    assert said in capsys.readouterr().err
    assert not list(Path().glob("*.part"))


def test_a_faulty_chart_is_drawn_all_the_same(moon: str) -> None:
    Path(moon).write_text(TEXT.replace("  BBWWBB\n  BBWWBB\n", "  BBWWBB\n  B?WB\n"))
    assert main(["draw", moon, "--output", "m.svg"]) == OK
    assert "lx-unknown" in Path("m.svg").read_text()


@pytest.mark.parametrize(("ending", "library", "extra"), [("png", "resvg_py", "images"), ("pdf", "typst", "pdf")])
def test_a_missing_library_is_told_with_its_extra(
    moon: str,
    ending: str,
    library: str,
    extra: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    assert main(["draw", moon, "--output", f"m.{ending}"]) == CANNOT
    assert how_to_install(extra) in capsys.readouterr().err
    assert not Path(f"m.{ending}").exists()


def pixels(svg: str, width: int) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(to_png(svg, width))).convert("RGB")).astype(int)


def shade_at(image: np.ndarray, x: float, y: float) -> str:
    return "#{:02x}{:02x}{:02x}".format(*image[int(y), int(x)])


def test_cells_are_seen_in_their_shades_by_another_program() -> None:
    """resvg draws the SVG; each cell's upper left quarter, clear of symbol and lines, has the key's shade."""
    chart = make_chart()
    place = chart_geometry(chart)
    image = pixels(chart_svg(chart), round(place.width * 4))
    for row, text in enumerate(chart.grid.rows, 1):
        for column, symbol in enumerate(text):
            x, y = place.x(column) + 3.5, place.y(row) + 3
            assert shade_at(image, x * 4, y * 4) == KEY[symbol][1]


@pytest.mark.parametrize("back", [False, True])
def test_the_fabric_is_seen_in_its_shades_by_another_program(back: bool) -> None:
    """Every stitch, single ones too, covers more than half of its own cell's middle with a tone of its own colour."""
    chart = make_chart("BWBRB\nMBWBM\nBRBWB", KEY)
    svg = fabric_svg(chart, back=back)
    image = pixels(svg, round(float(parse(svg).get("width")) * 4))
    high = 20 * 22 / 30
    for row, text in enumerate(chart.grid.rows, 1):
        for column, symbol in enumerate(reversed(text) if back else text):
            x, y = 3 + 20 * column, 2 + high * 0.75 + (3 - row) * high
            cell = image[
                int((y - (high * 0.1 if back else 0)) * 4) : int((y + high * 0.5) * 4),
                int((x + 5) * 4) : int((x + 15) * 4),
            ]
            shade = np.array([int(KEY[symbol][1][k : k + 2], 16) for k in (1, 3, 5)])
            others = np.array([[int(s[k : k + 2], 16) for k in (1, 3, 5)] for _, s in KEY.values()])
            near = np.abs(others[None, None] - cell[:, :, None]).sum(axis=3).argmin(axis=2)
            own = int(np.abs(others - shade).sum(axis=1).argmin())
            assert (near == own).mean() > 0.4, (row, column, symbol)


@pytest.mark.parametrize("shade", ["#27406b", "#efe9dc", *slow("#b8743c", "#c8202f", "#141414", "#fbfbfb", "#f2d23c")])
def test_a_thumbnail_has_the_tone_of_its_yarn(shade: str) -> None:
    """Shadows and gleams must not make a small fabric look like another yarn: CIEDE2000 of its mean light under 5."""
    chart = make_chart("\n".join(["B" * 30] * 40), {"B": ("x", shade)})
    part = pixels(fabric_svg(chart), 240)[20:-20, 20:-20] / 255
    mean = np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4).mean(axis=(0, 1))
    assert Color("srgb-linear", mean.tolist()).delta_e(Color(shade), method="2000") < 5


def test_no_picture_is_made_wider_than_memory_bears() -> None:
    image = Image.open(io.BytesIO(to_png(chart_svg(make_chart("B\n" * 200)), WIDEST)))
    assert max(image.size) <= WIDEST


@pytest.mark.parametrize("width", [300, *slow(741, 1500)])
def test_a_large_chart_is_drawn_in_bands_as_it_is_at_once(width: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Bands of two rows and a bit, with title, key, numbers and layers. The library stretches a drawing by part of a
    pixel to whole ones, so that edges may lie a hair elsewhere; nothing else does."""
    grid = "\n".join("".join("BWR"[(3 * row + column * column) % 3] for column in range(11)) for row in range(17))
    chart = make_chart(grid, KEY)
    svg = chart_svg(chart, plan=make_plan(chart), layers=["supplies"], shown=["supplies"], background=True, key=True)
    whole = pixels(svg, width)
    monkeypatch.setattr(bands, "MOST_LETTERS", 186)
    monkeypatch.setattr(bands, "BAND_LETTERS", 25)
    drawn: list[str] = []

    def noted(svg: str, scale: float, height: int) -> Iterator[tuple[int, int, str]]:
        for band in cut(svg, scale, height):
            drawn.append(band[2])
            yield band

    monkeypatch.setattr(bands, "_bands", noted)
    banded = pixels(svg, width)
    high = min(len(banded), len(whole))
    assert max(len(banded), len(whole)) - high <= 1
    near = np.min(
        [np.abs(banded[1 : high - 1] - whole[1 + by : high - 1 + by]).max(axis=2) for by in (-1, 0, 1)], axis=0
    )
    assert (near > 60).mean() < 0.01
    assert len(drawn) > 7
    assert max(band.count("lx-row ") + band.count('lx-row"') for band in drawn) < 9, (
        "no other band's rows are in a band"
    )


def test_only_many_letters_are_drawn_in_bands() -> None:
    assert not bands.wants_bands(chart_svg(make_chart("B" * 200 + "\n" + ("W" * 200 + "\n") * 199)))
    assert bands.wants_bands(chart_svg(make_chart("B" * 200 + "\n" + ("W" * 200 + "\n") * 200)))
    assert not bands.wants_bands(fabric_svg(make_chart("B" * 201 + "\n" + ("W" * 201 + "\n") * 200)))


def test_a_page_of_pdf_has_no_letters_where_they_would_be_too_many(
    moon: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    seen: list[str] = []

    def keep(drawings: list[str]) -> bytes:
        seen.extend(drawings)
        return b"%PDF-"

    monkeypatch.setattr(export, "to_pdf", keep)
    monkeypatch.setattr(export, "MOST_LETTERS", 24)
    assert main(["draw", moon, "-o", "m.pdf"]) == OK
    monkeypatch.setattr(export, "MOST_LETTERS", 23)
    assert main(["draw", moon, "--as", "sheets", "-o", "m.pdf"]) == OK
    assert capsys.readouterr().err == ""
    assert main(["draw", moon, "-o", "m.pdf"]) == OK
    said = "a page with more than 23 stitches has colours without symbols; --as sheets has them, page by page"
    assert capsys.readouterr().err == f"lintarsia: {said}\n"
    rows = [[row for row in parse(svg).iter() if row.get("class") == "lx-row"] for svg in (seen[0], seen[-1])]
    assert min(len(row.findall(f"{SVG}text")) for row in rows[0]) > 0
    assert rows[1] == []
    (cells,) = (part for part in parse(seen[-1]).iter() if "lx-cells" in part.get("class", "").split())
    assert not list(cells.iter(f"{SVG}text"))
    assert len(list(cells.iter(f"{SVG}path"))) == 2


def test_pdf_is_in_vectors_and_repeatable() -> None:
    drawings = [chart_svg(make_chart())]
    pdf = to_pdf(drawings)
    assert pdf == to_pdf(drawings)
    assert b"/Subtype/Image" not in pdf.replace(b" ", b"")
    wide, high = page_size(drawings[0])
    box = re.findall(rb"/MediaBox ?\[0 0 ([\d.]+) ([\d.]+)\]", pdf)[0]
    assert [float(v) * 25.4 / 72 for v in box] == pytest.approx([wide, high], abs=0.01)


def test_only_our_own_drawings_are_exported() -> None:
    with pytest.raises(ValueError, match="no drawing of ours"):
        to_png("<svg/>", 10)
    with pytest.raises(Trouble, match="could not be drawn"):
        to_png(chart_svg(make_chart()).replace("</svg>", ""), 10)


def test_this_machine_has_a_font_so_that_letters_are_tested() -> None:
    assert letters_drawn(), "no font found; on Debian: apt-get install fonts-dejavu-core"
