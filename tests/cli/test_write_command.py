"""`lintarsia write` as its callers meet it."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import html

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.main import main

Write = Callable[..., Path]
Run = Callable[..., tuple[int, str, str]]

GRID = "BBBBBBBB\nBWBWBWBW\nBBBWWBBB\nBBBWWBBB\nBBBWWBBB\nBBBWWBBB\n"


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)

    def run(*argv: str) -> tuple[int, str, str]:
        status = main(argv)
        out, err = capfd.readouterr()
        return status, out, err

    return run


def rows(out: str) -> list[str]:
    return [line for line in out.splitlines() if line.startswith(("Row", "Round"))]


def test_rows_are_written_folded_and_merged(run: Run, write_chart: Write) -> None:
    write_chart(grid=GRID)
    status, out, err = run("write", "toy.chart.yaml")
    assert (status, err) == (OK, "")
    assert out.startswith("Toy\n===\n\nGauge: 22 sts and 30 rows to 10 cm\n")
    assert "  B  Dusk blue\n  W  Bone\n" in out
    assert rows(out) == [
        "Rows 1 and 3 (RS): k3 B, k2 W, k3 B. (8 sts)",
        "Rows 2 and 4 (WS): p3 B, p2 W, p3 B. (8 sts)",
        "Row 5 (RS): *k1 W, k1 B; rep from * to end. (8 sts)",
        "Row 6 (WS): p8 B. (8 sts)",
    ]


def test_in_full_folds_and_merges_nothing(run: Run, write_chart: Write) -> None:
    write_chart(grid=GRID)
    out = run("write", "toy.chart.yaml", "--in-full", "--rows", "4-5")[1]
    assert rows(out) == [
        "Row 4 (WS): p3 B, p2 W, p3 B. (8 sts)",
        "Row 5 (RS): k1 W, k1 B, k1 W, k1 B, k1 W, k1 B, k1 W, k1 B. (8 sts)",
    ]


def test_supplies_are_named_joined_and_cut(run: Run, write_chart: Write) -> None:
    write_chart(grid="BBB\nWBB\nBBB\n")
    out = run("write", "toy.chart.yaml", "--supplies")[1]
    assert rows(out) == [
        "Row 1 (RS): join B1; k3 B1. (3 sts)",
        "Row 2 (WS): join W1; p1 W1, p2 B1. (3 sts) Cut W1.",
        "Row 3 (RS): k3 B1. (3 sts) Cut B1.",
    ]
    assert "\nSupplies, to wind, tails and 10% to spare included\n  B1  Dusk blue, on the ball, " in out


def test_rounds_are_knitted_and_shaping_is_said(run: Run, write_chart: Write) -> None:
    write_chart(grid=".BB.\nBWBB\n", extra="shaping:\n  2: {left: -1, right: -1}\n")
    file = Path("toy.chart.yaml")
    assert rows(run("write", "toy.chart.yaml")[1])[1] == "Row 2 (WS): p2tog B, ssp B. (2 sts)"
    file.write_text(file.read_text("utf-8").replace("worked: flat", "worked: round").replace("left: -1, ", ""), "utf-8")
    out = run("write", "toy.chart.yaml")[1]
    assert rows(out)[1] == "Round 2: ssk B, k1 B. (2 sts)"
    assert "ssk  slip, slip, knit (leans left)" in out


def test_html_stands_alone_and_escapes_the_chart_s_own_words(run: Run, write_chart: Write) -> None:
    file = write_chart()
    file.write_text(
        file.read_text("utf-8").replace("title: Toy", 'title: "<script>alert(1)</script> & \\e[31m"'), "utf-8"
    )
    status, out, _ = run("write", "toy.chart.yaml", "--format", "html", "--output", "rows.html")
    assert (status, out) == (OK, "")
    text = Path("rows.html").read_text("utf-8")
    page = html.fromstring(text)
    assert page.xpath("//script") == []
    assert page.xpath("string(//h1)") == "<script>alert(1)</script> & \N{REPLACEMENT CHARACTER}[31m"
    assert page.xpath("//@src | //link/@href | //a/@href") == []
    assert next(li.text_content() for li in page.xpath("//ol/li")) == "Row 1 (RS): k4 B. (4 sts)"


def test_markdown_keeps_asterisks_and_brackets(run: Run, write_chart: Write) -> None:
    write_chart(grid="BWBWBWBW\n")
    out = run("write", "toy.chart.yaml", "--format", "markdown")[1]
    assert r"- **Row 1 (RS):** \*k1 W, k1 B; rep from \* to end. (8 sts)" in out


def test_rows_that_the_chart_does_not_have(run: Run, write_chart: Write) -> None:
    write_chart()
    assert run("write", "toy.chart.yaml", "--rows", "2-9") == (
        CANNOT,
        "",
        "lintarsia: the chart has 3 rows; asked for 2 to 9\n",
    )
    assert run("write", "toy.chart.yaml", "--rows", "9")[2] == "lintarsia: the chart has 3 rows; asked for row 9\n"
    assert run("write", "toy.chart.yaml", "--rows", "9-")[2] == "lintarsia: the chart has 3 rows; asked for row 9\n"
    for bad in ("0", "3-1", "x", "-2", "1-2-3"):
        assert run("write", "toy.chart.yaml", "--rows", bad)[0] == CANNOT, bad


def test_a_chart_with_faults_is_not_written(run: Run, write_chart: Write) -> None:
    file = write_chart()
    file.write_text(file.read_text("utf-8").replace("worked: flat", "worked: sideways"), "utf-8")
    status, out, err = run("write", "toy.chart.yaml")
    assert (status, out) == (FOUND, "")
    assert "[file/schema]" in err
    assert run("write", "none.chart.yaml")[0] == CANNOT


def test_what_is_written_can_be_put_into_the_chart(run: Run, write_chart: Write) -> None:
    write_chart(grid=GRID)
    lines = rows(run("write", "toy.chart.yaml", "--in-full")[1])
    written = "".join(f"  {number}: {line!r}\n" for number, line in enumerate(lines, 1))
    write_chart(grid=GRID, extra=f"written:\n{written}")
    out = run("check", "--format", "json", ".")[1]
    assert "words/" not in out
    write_chart(grid=GRID, extra=f"written:\n{written.replace('p3 B, p2 W, p3 B', 'p3 B, p3 W, p2 B', 1)}")
    out = run("check", ".")[1]
    assert "words/mismatch" in out
    assert "row 2 (WS): stitch 3 is B (Dusk blue) in the chart and W (Bone) in the words" in " ".join(out.split())


def test_supplies_are_as_long_as_the_plan_has_them(run: Run, write_chart: Write, tmp_path: Path) -> None:
    """What is to be wound is one length wherever it is told, and both say what it holds."""
    write_chart(grid="BBBBBBB\nBWWBBWB\nBWWBBBB\nBBBBBBB\n")
    (tmp_path / "lintarsia.yaml").write_text("yarn: {allowance: 35%, tail: 20 cm}\n", encoding="utf-8")
    line = r"^  (?:\[ \]|   ) ([BW]\d) +([\d.]+ \w+)  (\w[\w ]*?)  "
    wound = re.findall(line, run("plan", "toy.chart.yaml")[1], re.M)
    out = run("write", "toy.chart.yaml", "--supplies")[1]
    assert re.findall(r"^  ([BW]\d) +[\w ]+, ([\w ]+), ([\d.]+ \w+)$", out, re.M) == [
        (name, holder, length) for name, length, holder in wound
    ]
    assert len(wound) > 3
    assert "tails and 35% to spare included" in out
