"""`lintarsia release` as its callers meet it."""

from collections.abc import Callable
from pathlib import Path

import cushion
import pytest
from lxml import html

from lintarsia.cli.exits import CANNOT, FOUND, OK

Run = Callable[..., tuple[int, str, str]]
CHART = cushion.panel(rows=3)
PATTERN = """\
lintarsia-pattern: 1
title: Cushion
version: "2.1"
sizes: [small, large]
yarns:
  dk: {balls: 1}
pieces:
  side:
    chart: panel.chart.yaml
    times: 2
    cast-on: {small: 10, large: 20}
    plain: B
    measures: {width: {small: 5 cm, large: 12 cm}}
suppress:
  - {rule: size/measurement, size: large, justification: "stretched on purpose"}
"""


@pytest.fixture
def run(in_a_folder_with: Callable[[dict[str, str]], Run]) -> Run:
    return in_a_folder_with({"panel.chart.yaml": CHART, "cushion.pattern.yaml": PATTERN})


def test_a_pattern_that_may_go_out(run: Run) -> None:
    status, out, err = run("release", "cushion.pattern.yaml")
    assert (status, err) == (OK, "")
    lines = out.splitlines()
    assert lines[0] == "Cushion, version 2.1"
    assert lines[3] == "Nothing that can be checked by machine keeps this pattern from release."
    assert "  Panel (panel.chart.yaml): 10 stitches, 3 rows" in lines
    assert "    accepted: stretched on purpose" in lines
    assert "  nothing to look at: duplicate, pieces, repeat, seam, symmetry, words" in lines
    told = " ".join(out.split())
    assert "side, twice: 10 sts cast on, 3 rows; 5 cm wide, 1 cm high; stated width 5 cm" in told
    assert "motif in the middle: 5 stitches at its right, 5 at its left, 0 rows below, 0 above" in told
    # 2 × (30 stitches of 20.5 mm, and two tails of 15 cm) = 1.83 m: Munden 1959, Kw 4.1
    # and 2 × (10 stitches cast on and 10 bound off at 15 mm, and 15 cm to spare) = 90 cm: house values
    assert "Fjord DK: 2.7 m needed; 3.0 m with the allowance; 1 ball, 1 stated" in told
    assert "[ ] The photographs show this version" in told
    assert max(map(len, lines)) <= 80
    assert "certifies" not in out  # cautions about children stand on patterns for children


def test_a_pattern_that_may_not(run: Run) -> None:
    file = Path("cushion.pattern.yaml")
    file.write_text(PATTERN.replace("small: 5 cm", "small: 8 cm"), "utf-8")
    status, out, err = run("release", "cushion.pattern.yaml")
    assert (status, err) == (FOUND, "")
    assert "Not ready: 1 result blocks release." in out
    assert "cushion.pattern.yaml:13:31  error size/measurement" in out
    assert "  measurement" not in out.split("What was checked")[1].split("What it comes to")[0]
    status, out, err = run("release", "cushion.pattern.yaml", "-o", "card.txt")
    assert (status, out, err) == (FOUND, "", "lintarsia: not ready: 1 result blocks release.\n")
    assert "Not ready" in Path("card.txt").read_text("utf-8")


def test_faults_of_the_charts_block_too(run: Run) -> None:
    Path("panel.chart.yaml").write_text(CHART.replace("  BBBBBBBBBB\n", "  BBBBBBBBB\n", 1), "utf-8")
    status, out, _ = run("release", "cushion.pattern.yaml")
    assert status == FOUND
    assert "error grid/stitch-count" in out


def test_the_level_that_blocks_can_be_lowered(run: Run) -> None:
    Path("pocket.chart.yaml").write_text(CHART, "utf-8")
    assert run("release", "cushion.pattern.yaml")[0] == OK
    status, out, _ = run("release", "cushion.pattern.yaml", "--block", "note")
    assert status == FOUND
    assert "pattern/unlisted-chart" in out


def test_html_stands_alone_with_boxes_and_escapes_the_pattern_s_words(run: Run) -> None:
    file = Path("cushion.pattern.yaml")
    file.write_text(
        PATTERN.replace("title: Cushion", 'title: "<b>A</b> & \\e[1m"').replace("on purpose", "<i>"), "utf-8"
    )
    status, out, _ = run("release", "cushion.pattern.yaml", "--format", "html")
    assert status == OK
    page = html.fromstring(out)
    assert page.xpath("string(//h1)") == "<b>A</b> & \N{REPLACEMENT CHARACTER}[1m, version 2.1"
    assert len(page.xpath("//ul[@class='tick']/li/span[@class='box']")) >= 8
    assert "stretched <i>" in page.text_content()
    assert page.xpath("//i | //script | //@src | //a") == []


@pytest.mark.parametrize("wearer", ["child", "infant"])
def test_cautions_for_children_point_and_defer(run: Run, wearer: str) -> None:
    Path("cushion.pattern.yaml").write_text(PATTERN + f"wearer: {wearer}\n", "utf-8")
    told = " ".join(run("release", "cushion.pattern.yaml")[1].split())
    assert "16 CFR 1501" in told
    assert "EN 14682:2014" in told
    assert "assessed by somebody qualified under local rules" in told
    assert ("fingers and toes" in told) is (wearer == "infant")


def test_what_is_no_pattern(run: Run) -> None:
    assert run("release", "none.pattern.yaml") == (CANNOT, "", "lintarsia: there is no file 'none.pattern.yaml'\n")
    status, _, err = run("release", "panel.chart.yaml")
    assert (status, err) == (
        CANNOT,
        "lintarsia: 'panel.chart.yaml' is not named like a pattern; expected *.pattern.yaml\n",
    )
    Path("bad.pattern.yaml").write_text("lintarsia-pattern: 1\n", "utf-8")
    status, out, err = run("release", "bad.pattern.yaml")
    assert (status, out) == (FOUND, "")
    assert "the file has no 'pieces'" in err
    assert err.endswith("lintarsia: there is no pattern here to release\n")


def test_the_card_says_which_state_it_is_of_and_names_files_from_here(run: Run, tmp_path: Path) -> None:
    _, out, _ = run("release", str(tmp_path / "cushion.pattern.yaml"))
    assert "from cushion.pattern.yaml\n" in out
    assert str(tmp_path) not in out
    *_, stamp, chart = out.splitlines()
    assert chart.startswith("  panel.chart.yaml: fingerprint ")
    assert stamp.startswith("version 2.1 · fingerprint ")
    assert out.count("fingerprint ") == 4  # the pattern's, its piece's in either size, and the chart's
    Path("panel.chart.yaml").write_text(CHART.replace("over: 10 cm", "over: 10 cm, loop: 20 mm"), "utf-8")
    assert run("release", "cushion.pattern.yaml")[1].splitlines()[-1] != stamp


def test_results_accepted_for_one_reason_are_told_together(run: Run) -> None:
    """Nine charts that no pattern names, and one reason for all."""
    for number in range(9):
        Path(f"other{number}.chart.yaml").write_text(CHART, "utf-8")
    text = PATTERN + "  - {rule: pattern/unlisted-chart, justification: of other designs}\n"
    Path("cushion.pattern.yaml").write_text(text, "utf-8")
    _, out, _ = run("release", "cushion.pattern.yaml")
    assert out.count("of other designs") == 1
    assert out.count("other0.chart.yaml") <= 2
