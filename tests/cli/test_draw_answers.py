"""`draw`: which files it makes, how wide, with what on them, and what it says. What makes pixels and pages of a drawing
is stood in for; tests/drawing/test_draw_command.py looks at those."""

import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.drawing import export

Invoke = Callable[..., Any]
MOON = """\
lintarsia: 1
title: Moon
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  BBBBBB
  BBWWBB
  BWWWBB
"""
MAT = """\
lintarsia-pattern: 1
title: Mat
version: "1.3"
sizes: [small, Extra large]
pieces:
  Left front: {chart: moon.chart.yaml, repeats: {small: 1, Extra large: 2}}
  back: {chart: moon.chart.yaml}
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("moon.chart.yaml").write_text(MOON, "utf-8")
    Path("mat.pattern.yaml").write_text(MAT, "utf-8")
    return tmp_path


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[tuple[int, list[str]]]:
    """(width in pixels, its drawing) of every PNG, and (0, the drawings) of every PDF."""
    found: list[tuple[int, list[str]]] = []

    def png(svg: str, width: int) -> bytes:
        found.append((width, [svg]))
        return b"PNG"

    def pdf(svgs: Sequence[str]) -> bytes:
        found.append((0, list(svgs)))
        return b"PDF"

    monkeypatch.setattr(export, "to_png", png)
    monkeypatch.setattr(export, "to_pdf", pdf)
    monkeypatch.setattr(export, "letters_drawn", lambda: True)
    return found


def files(ending: str) -> list[str]:
    return sorted(path.name for path in Path().iterdir() if path.name.endswith(ending))


def chart(wide: int, high: int) -> None:
    head = MOON.partition("chart: |")[0]
    Path("moon.chart.yaml").write_text(f"{head}chart: |\n" + ("  " + ("BW" * wide)[:wide] + "\n") * high, "utf-8")


@pytest.mark.parametrize(
    ("stitches", "said", "width"),
    [(6, (), 640), (26, (), 640), (27, (), 648), (166, (), 3984), (167, (), 4000), (6, ("--width", "300"), 300)],
)
def test_a_picture_is_24_pixels_a_stitch_within_bounds(
    stitches: int, said: tuple[str, ...], width: int, invoke: Invoke, made: list[tuple[int, list[str]]]
) -> None:
    chart(stitches, 2)
    assert invoke("draw", "moon.chart.yaml", "-o", "moon.png", *said) == (OK, "", "")
    assert [found for found, _ in made] == [width]
    assert Path("moon.png").read_bytes() == b"PNG"


def test_without_a_font_a_png_is_made_and_that_is_said(
    invoke: Invoke, made: list[tuple[int, list[str]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(export, "letters_drawn", lambda: False)
    said = "lintarsia: this machine has no font that PNG can use, so the picture has no letters\n"
    assert invoke("draw", "moon.chart.yaml", "-o", "moon.PNG") == (OK, "", said)
    assert invoke("draw", "moon.chart.yaml", "-o", "moon.svg") == (OK, "", "")
    assert invoke("draw", "moon.chart.yaml", "-o", "moon.pdf") == (OK, "", "")


def test_sheets_are_numbered_from_1_unless_a_pdf_holds_them(invoke: Invoke, made: list[tuple[int, list[str]]]) -> None:
    """Ninety stitches by seventy rows are more than an A4 sheet holds."""
    chart(90, 70)
    done = invoke("draw", "moon.chart.yaml", "--as", "sheets")
    assert (done.status, done.out, done.err) == (
        CANNOT,
        "",
        "lintarsia: the chart takes 2 sheets; say where to put them with --output\n",
    )
    assert invoke("draw", "moon.chart.yaml", "--as", "sheets", "-o", "s.SVG").status == OK
    assert files(".SVG") == ["s-1.SVG", "s-2.SVG"]
    assert invoke("draw", "moon.chart.yaml", "--as", "sheets", "-o", "s.pdf").status == OK
    assert [len(drawings) for _, drawings in made] == [2]
    assert files(".pdf") == ["s.pdf"]


def test_more_sheets_than_one_pdf_may_have_come_in_several(
    invoke: Invoke, made: list[tuple[int, list[str]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    from lintarsia.drawing import export

    monkeypatch.setattr(export, "MOST_SHEETS", 1)
    chart(90, 70)
    done = invoke("draw", "moon.chart.yaml", "--as", "sheets", "-o", "s.pdf")
    assert (done.status, done.out) == (OK, "")
    assert done.err == "lintarsia: 2 sheets, 1 to a file at most: up to s-2.pdf\n"
    assert files(".pdf") == ["s-1.pdf", "s-2.pdf"]
    assert [len(drawings) for _, drawings in made] == [1, 1]
    assert invoke("draw", "moon.chart.yaml", "-o", "whole.pdf").status == OK
    assert files(".pdf") == ["s-1.pdf", "s-2.pdf", "whole.pdf"]


def test_the_paper_is_as_said(invoke: Invoke) -> None:
    """ISO 216: 210 by 297 mm; Letter: 8.5 by 11 in."""
    for paper, size in (("A4", ("210", "297")), ("Letter", ("215.9", "279.4"))):
        out = invoke("draw", "moon.chart.yaml", "--as", "sheets", "--paper", paper).out
        found = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm"', out)
        assert found is not None
        assert sorted(map(float, found.groups())) == sorted(map(float, size))


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ((), "lx lx-chart"),
        (("--as", "fabric"), "lx lx-fabric"),
        (("--as", "back"), "lx lx-back"),
        (("--as", "paths"), "lx lx-paths"),
        (("--as", "schematic"), "lx lx-schematic"),
        (("--as", "sheets"), "lx lx-sheet"),
    ],
)
def test_each_picture_is_what_it_is_called(said: tuple[str, ...], kind: str, invoke: Invoke) -> None:
    done = invoke("draw", "moon.chart.yaml", *said)
    assert (done.status, done.err) == (OK, "")
    assert f'class="{kind}' in done.out[: done.out.index(">")], done.out[:200]
    assert done.out.endswith("</svg>\n")
    assert not done.out.endswith("\n\n")


def test_the_back_is_the_front_in_a_mirror_with_its_floats(invoke: Invoke) -> None:
    front, back = (invoke("draw", "moon.chart.yaml", "--as", side).out for side in ("fabric", "back"))
    assert front != back


def test_a_schematic_is_titled_and_on_paper(invoke: Invoke) -> None:
    out = invoke("draw", "moon.chart.yaml", "--as", "schematic").out
    assert ">Schematic of Moon</title>" in out
    assert 'class="lx-paper"' in out


def test_pieces_have_files_by_piece_and_size(invoke: Invoke, made: list[tuple[int, list[str]]]) -> None:
    done = invoke("draw", "mat.pattern.yaml", "-o", "m.Svg")
    assert (done.status, done.err) == (OK, "")
    assert files(".Svg") == [
        "m-back-extra-large.Svg",
        "m-back-small.Svg",
        "m-left-front-extra-large.Svg",
        "m-left-front-small.Svg",
    ]
    assert invoke("draw", "mat.pattern.yaml", "-o", "m.pdf").status == OK
    assert [len(drawings) for _, drawings in made] == [4]
    one = ("draw", "mat.pattern.yaml", "--piece", "back", "--size", "small")
    assert invoke(*one, "-o", "one.svg").status == OK
    assert invoke(*one).out == Path("one.svg").read_text("utf-8") + "\n"
    done = invoke("draw", "mat.pattern.yaml", "--piece", "back")
    assert (done.status, done.err) == (CANNOT, "lintarsia: 2 pictures; say where to put them with --output\n")


def test_sheets_of_one_piece_are_numbered_behind_its_name(invoke: Invoke) -> None:
    chart(90, 70)
    one = ("draw", "mat.pattern.yaml", "--piece", "back", "--size", "small", "--as", "sheets")
    done = invoke(*one)
    assert (done.status, done.err) == (CANNOT, "lintarsia: 2 pictures; say where to put them with --output\n")
    assert invoke(*one, "-o", "b.svg").status == OK
    assert files(".svg") == ["b-1.svg", "b-2.svg"]


def test_a_drawing_says_what_state_it_is_of(invoke: Invoke) -> None:
    """Of a chart its fingerprint; of a piece also the pattern's version."""
    own = invoke("draw", "moon.chart.yaml").out
    piece = invoke("draw", "mat.pattern.yaml", "--piece", "back", "--size", "small").out
    nested = invoke("draw", "mat.pattern.yaml", "--piece", "back", "--nested").out
    stamp = re.compile(r"(version [\d.]+ · )?fingerprint [0-9a-f]{16}")
    found = [stamp.search(text) for text in (own, piece, nested)]
    assert [match and match[1] for match in found] == [None, "version 1.3 · ", "version 1.3 · "]
    assert "version" not in own.partition("fingerprint")[0][-60:]


def test_layers_over_a_chart_and_over_a_piece(invoke: Invoke) -> None:
    for words in (("moon.chart.yaml",), ("mat.pattern.yaml", "--piece", "back", "--size", "small")):
        plain = invoke("draw", *words).out
        over = invoke("draw", *words, "--over", "supplies").out
        assert "layer-supplies" in over
        assert "layer-supplies" not in plain
    assert "layer-results" in invoke("draw", "moon.chart.yaml", "--over", "results").out


def test_a_chart_that_is_no_chart_has_no_picture(invoke: Invoke) -> None:
    Path("moon.chart.yaml").write_text("title: [", "utf-8")
    done = invoke("draw", "moon.chart.yaml", "-o", "m.svg")
    assert done.status == FOUND
    assert files(".svg") == []
    of_pattern = invoke("draw", "mat.pattern.yaml", "-o", "m.svg")
    assert of_pattern.status == FOUND
    assert of_pattern.err.startswith("mat.pattern.yaml:6:15: Left front, small cannot be laid out: ")
    assert files(".svg") == []
