"""`lintarsia bring` from end to end: where it writes, what it will not overwrite, what it says."""

import io
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from lintarsia.cli.exits import CANNOT, OK
from lintarsia.cli.main import main
from lintarsia.ground.installing import how_to_install
from lintarsia.reading import read_chart


def png() -> bytes:
    pixels = np.full((4, 5, 3), (39, 64, 107), np.uint8)
    pixels[1:3, 1:4] = (239, 233, 220)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG")
    return out.getvalue()


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "moon.png").write_bytes(png())
    return tmp_path


def test_a_chart_is_written_beside_the_image_and_passes_the_check(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bring", "moon.png"]) == OK
    note, made = capsys.readouterr().err.splitlines()
    assert note.startswith("moon.png: its squares are stitches now")
    assert made == "moon.chart.yaml: 5 stitches by 4 rows, 2 colours"
    assert sorted(p.name for p in Path().iterdir()) == ["moon.chart.yaml", "moon.png"]
    chart = read_chart("moon.chart.yaml").chart
    assert chart is not None
    assert chart.title == "Moon"
    assert chart.grid.rows[::-1] == ("NNNNN", "NBBBN", "NBBBN", "NNNNN")
    assert main(["check", "moon.chart.yaml"]) == OK


def test_a_file_that_is_there_is_left_alone(capsys: pytest.CaptureFixture[str]) -> None:
    Path("moon.chart.yaml").write_text("mine")
    assert main(["bring", "moon.png"]) == CANNOT
    assert "'moon.chart.yaml' is there already; give another --output, or --force" in capsys.readouterr().err
    assert Path("moon.chart.yaml").read_text() == "mine"
    assert main(["bring", "moon.png", "--force"]) == OK
    assert Path("moon.chart.yaml").read_text().startswith("# Made from")


def test_a_chart_can_go_to_the_screen(capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["bring", "moon.png", "--output", "-", "--title", "Té: 1"]) == OK
    text = capsysbinary.readouterr().out.decode()
    assert 'title: "Té: 1"\n' in text
    assert not Path("moon.chart.yaml").exists()


def test_options_reach_the_chart() -> None:
    Path("yarns.yaml").write_text('Fjord: "#1f3a66"\nSnow: "#ffffff"\n')
    arguments = ["--gauge", "18x24/4in", "--technique", "stranded", "--worked", "round", "--palette", "yarns.yaml"]
    assert main(["bring", "moon.png", *arguments, "--output", "m.chart.yaml"]) == OK
    chart = read_chart("m.chart.yaml").chart
    assert chart is not None
    assert (chart.gauge.stitches, chart.gauge.rows, str(chart.gauge.over)) == (18, 24, "4 in")
    assert (chart.technique, chart.worked) == ("stranded", "round")
    assert [c.name for c in chart.colours.values()] == ["Fjord", "Snow"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["nowhere.png"], "'nowhere.png' cannot be read"),
        (["moon.png", "--gauge", "22"], "'22' is not a gauge; expected stitches and rows such as 22x30"),
        (["moon.png", "--gauge", "0x30"], "is not a gauge"),
        (["moon.png", "--cell", "0"], "'0' is not a cell"),
        (["moon.png", "--cell", "9x9"], "a cell of 9 × 9 is larger than that"),
        (["moon.png", "--cell", "2", "--stitches", "4"], "give one of them"),
        (["moon.png", "--transparent", "green"], "neither no-stitch nor a shade"),
        (["moon.png", "--palette", "moon.png"], "'moon.png'"),
        (["moon.png", "--output", "no/such.chart.yaml"], "cannot be written"),
    ],
)
def test_what_cannot_be_brought_is_told(arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bring", *arguments]) == CANNOT
    assert said in capsys.readouterr().err
    assert [p.name for p in Path().iterdir()] == ["moon.png"]


@pytest.mark.parametrize(("name", "library"), [("moon.png", "PIL"), ("t.xlsx", "python_calamine")])
def test_a_missing_library_is_told_with_its_extra(
    name: str, library: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("t.xlsx").write_bytes(b"PK\x03\x04")
    monkeypatch.setitem(sys.modules, library, None)
    assert main(["bring", name]) == CANNOT
    assert how_to_install("images") in capsys.readouterr().err


def shown(before_after: bytes) -> tuple[int, int]:
    return Image.open(io.BytesIO(before_after)).size


def test_a_preview_shows_before_and_after_in_the_gauges_proportion() -> None:
    assert main(["bring", "moon.png", "--tidy", "--preview", "both.png", "--gauge", "20x30"]) == OK
    assert shown(Path("both.png").read_bytes()) == (2 * 5 * 12 + 24, 4 * 8)
    before = np.asarray(Image.open("both.png"))
    assert tuple(before[0, 0]) == tuple(before[0, -1]) == (39, 64, 107)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--preview", "moon.png"], "would be written over FILE"),
        (["--preview", "both.jpg"], "does not end in .png"),
        (["--preview", "-"], "this screen shows no pictures; give --preview a file"),
        (["--preview", "there.png"], "'there.png' is there already"),
        (["--tidy", "--dither"], "give one of them"),
        (["--specks", "2"], "it goes with --tidy"),
    ],
)
def test_a_preview_takes_the_place_of_nothing(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("there.png").write_bytes(b"mine")
    held = Path("moon.png").read_bytes()
    assert main(["bring", "moon.png", *arguments]) == CANNOT
    assert said in capsys.readouterr().err
    assert Path("there.png").read_bytes() == b"mine"
    assert Path("moon.png").read_bytes() == held
    assert not Path("moon.chart.yaml").exists()


def test_a_preview_in_the_terminal_is_in_half_blocks(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["bring", "moon.png", "--preview", "-", "--gauge", "20x20"]) == OK
    lines = [line for line in capsys.readouterr().err.splitlines() if "▀" in line]
    assert [line.count("▀") for line in lines] == [10, 10]  # four rows, two a line; five stitches before, five after
    assert "38;2;39;64;107" in lines[0]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("lintarsia: 1\ntitle: Fox\n", "chart"),
        ("# a remark\n\nlintarsia-pattern: 1\n", "pattern"),
        ("lintarsia-knit: 1\n", "test knit"),
        ("title: Fox\nchart: |\n  BB\n", "chart"),
    ],
)
def test_a_file_of_ours_is_no_grid_of_letters(text: str, kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path("fox.chart.yaml").write_text(text)
    assert main(["bring", "fox.chart.yaml", "-o", "new.chart.yaml"]) == CANNOT
    assert f"'fox.chart.yaml' is a {kind} file already; there is nothing to bring" in capsys.readouterr().err
    assert not Path("new.chart.yaml").exists()


def test_a_folder_is_told_as_one(capsys: pytest.CaptureFixture[str]) -> None:
    Path("pictures").mkdir()
    assert main(["bring", "pictures"]) == CANNOT
    assert "'pictures' is a folder; expected one image or table" in capsys.readouterr().err


def test_the_settings_bound_what_is_made(capsys: pytest.CaptureFixture[str]) -> None:
    """Whatever it is made of; those above the chart that is to be written."""
    Path("table.csv").write_text("B,W,B\nB,B,W\n")
    Path("below").mkdir()
    Path("lintarsia.yaml").write_text("max-stitches: 5\n")
    Path("below/lintarsia.yaml").write_text("max-stitches: 20\n")
    for file, size in (("moon.png", "5 stitches by 4 rows, 20"), ("table.csv", "3 stitches by 2 rows, 6")):
        assert main(["bring", file]) == CANNOT
        said = f"that is {size} in all; at most 5 are read (max-stitches in the settings allows more)"
        assert capsys.readouterr().err == f"lintarsia: {said}\n"
        assert main(["bring", file, "-o", f"below/{file}.chart.yaml"]) == OK
        capsys.readouterr()
    assert not list(Path().glob("*.chart.yaml"))


def specked() -> bytes:
    """A ground of eighteen by eleven with a speck of one stitch, one of two, and a figure of six."""
    pixels = np.full((11, 18, 3), (39, 64, 107), np.uint8)
    for rows, columns in ((slice(1, 2), slice(1, 2)), (slice(5, 6), slice(1, 3)), (slice(2, 4), slice(5, 8))):
        pixels[rows, columns] = (239, 233, 220)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(("said", "left"), [((), 8), (("--specks", "0"), 9), (("--specks", "2"), 6)])
def test_a_speck_is_one_stitch_unless_it_is_said(said: tuple[str, ...], left: int) -> None:
    Path("specked.png").write_bytes(specked())
    assert main(["bring", "specked.png", "--tidy", *said]) == OK
    chart = read_chart("specked.chart.yaml").chart
    assert chart is not None
    (light,) = (symbol for symbol, colour in chart.colours.items() if colour.shade == "#efe9dc")
    assert "".join(chart.grid.rows).count(light) == left


def test_what_a_file_is_can_be_said_where_its_name_does_not(capsys: pytest.CaptureFixture[str]) -> None:
    """A grid of letters under the name of a table is one column of words as a table."""
    Path("grid.dat").write_text("BBW\nBWW\n")
    assert main(["bring", "grid.dat", "--from", "grid"]) == OK
    chart = read_chart("grid.chart.yaml").chart
    assert chart is not None
    assert [len(row) for row in chart.grid.rows] == [3, 3]
    assert main(["bring", "grid.dat", "--from", "table", "-o", "t.chart.yaml"]) == OK
    table = read_chart("t.chart.yaml").chart
    assert table is not None
    assert [len(row) for row in table.grid.rows] == [1, 1]
    assert capsys.readouterr().err.endswith("t.chart.yaml: 1 stitch by 2 rows, 2 colours\n")


@pytest.mark.parametrize(("said", "gauge"), [("22 x 30", (22, 30, "10 cm")), ("18.5×24/4in", (18.5, 24, "4 in"))])
def test_a_gauge_in_the_ways_it_is_typed(said: str, gauge: tuple[float, float, str]) -> None:
    assert main(["bring", "moon.png", "--gauge", said]) == OK
    chart = read_chart("moon.chart.yaml").chart
    assert chart is not None
    assert (chart.gauge.stitches, chart.gauge.rows, str(chart.gauge.over)) == gauge


@pytest.mark.parametrize(("said", "size"), [("2", (3, 2)), ("2x1", (3, 2)), (" 1 × 2 ", (3, 2))])
def test_the_cell_of_a_grid_that_is_enlarged(said: str, size: tuple[int, int]) -> None:
    """Three cells by two, each as many pixels wide and high as is said; one number is for both."""
    wide, high = (int(part) for part in said.replace("×", "x").split("x")) if said != "2" else (2, 2)
    cells = np.array([[0, 255, 0], [255, 255, 0]], np.uint8)
    Image.fromarray(cells.repeat(high, 0).repeat(wide, 1)).save("cells.png")
    assert main(["bring", "cells.png", "--cell", said]) == OK
    chart = read_chart("cells.chart.yaml").chart
    assert chart is not None
    assert (chart.grid.width, chart.grid.height) == size


@pytest.mark.parametrize(
    ("said", "clear"), [((), "."), (("--transparent", "EFE9DC"), "#efe9dc"), (("--transparent", "#27406b"), "#27406b")]
)
def test_what_is_transparent_is_no_stitch_or_a_shade(said: tuple[str, ...], clear: str) -> None:
    pixels = np.full((3, 4, 4), (200, 60, 40, 255), np.uint8)
    pixels[0, 0, 3] = 0
    Image.fromarray(pixels).save("clear.png")
    assert main(["bring", "clear.png", *said]) == OK
    chart = read_chart("clear.chart.yaml").chart
    assert chart is not None
    corner = chart.grid.rows[-1][0]
    assert corner == clear if clear == "." else chart.colours[corner].shade == clear


def test_the_picture_of_before_and_after_is_replaced_with_force_alone(capsys: pytest.CaptureFixture[str]) -> None:
    Path("there.png").write_bytes(b"mine")
    assert main(["bring", "moon.png", "--force", "--preview", "there.png"]) == OK
    assert shown(Path("there.png").read_bytes())[0] > 0
    assert main(["bring", "moon.png", "--force", "--preview", "THERE2.PNG"]) == OK
    assert Path("THERE2.PNG").exists()


def test_notes_are_about_the_file_that_was_brought(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bring", "moon.png", "-o", "other.chart.yaml"]) == OK
    told = capsys.readouterr().err.splitlines()
    assert all(line.startswith("moon.png: ") for line in told[:-1])
    assert told[-1] == "other.chart.yaml: 5 stitches by 4 rows, 2 colours"
