"""A row that slipped in one size of a piece, as `check` tells it: once, at the chart, until somebody accepts it."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

# A motif in strokes so thin that a picture alone tells nothing of its rows. The top line is row 7 of the motif.
MOTIF = ["..XX....", ".XXXX...", "XX.XXX..", ".XX..XXX", "..XXXXX.", "X..XX...", ".X.X.X.X"]
SLIPPED = [*MOTIF[:4], "...XXXXX", *MOTIF[5:]]
PATTERN = """\
lintarsia-pattern: 1
title: Sign
sizes: [small, medium, large, largest]
pieces:
  front:
    chart: {small: small.chart.yaml, medium: medium.chart.yaml, large: large.chart.yaml, largest: large.chart.yaml}
  back:
    chart: {small: small.chart.yaml, medium: medium.chart.yaml, large: large.chart.yaml, largest: large.chart.yaml}
"""
SAID = (
    "row 5 (RS) stands 1 stitch further to the right than in small (row 4) and large, largest (row 6): it looks shifted"
)


def chart(rows: list[str], margin: int, more: str = "", symbols: str = "WB") -> str:
    """With plain rows below and stitches at the left, of each as many as `margin`, and `.` where it has no stitch."""
    plain, front = symbols[0], symbols[1]
    lines = [("." * margin + row + "." * 2).replace(".", plain).replace("X", front) for row in rows]
    lines += [plain * len(lines[0])] * margin
    grid = "".join(f"  {line}\n" for line in lines)
    colours = f'  {plain}: {{name: Bone, shade: "#efe9dc"}}\n  {front}: {{name: Dusk blue, shade: "#27406b"}}\n'
    head = "lintarsia: 1\ntitle: Sign\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
    return f"{head}{more}colours:\n{colours}chart: |\n{grid}"


def write(medium: list[str], more: str = "", pattern: str = PATTERN) -> None:
    Path("sign.pattern.yaml").write_text(pattern)
    Path("small.chart.yaml").write_text(chart(MOTIF, 1))
    Path("medium.chart.yaml").write_text(chart(medium, 2, more))
    Path("large.chart.yaml").write_text(chart(MOTIF, 3, symbols="PQ"))  # the same colours by other symbols


def slips(invoke: Callable[..., Any], *files: str) -> list[tuple[str, str, int]]:
    """File, message up to what it is worth, row."""
    results = json.loads(invoke("check", "--format", "json", *files).out)["results"]
    told = [r for r in results if r["rule"] == "grid/row-slip" and not r["suppressed"]]
    return [(r["file"], r["message"].partition(";")[0], r["row"]) for r in told]


BY_SIZES = ("medium.chart.yaml", f"front, medium: {SAID}", 5)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_it_is_told_once_whatever_pieces_have_the_charts(folder: Path, invoke: Callable[..., Any]) -> None:
    write(MOTIF)
    assert slips(invoke) == []
    write(SLIPPED)
    assert slips(invoke) == slips(invoke, "sign.pattern.yaml") == [BY_SIZES]
    assert slips(invoke, "medium.chart.yaml") == []  # of which nobody knows the other sizes


def test_what_is_accepted_in_the_pattern_or_the_chart_is_settled(folder: Path, invoke: Callable[..., Any]) -> None:
    own = "suppress:\n  - {rule: grid/row-slip, row: ROW, justification: the hand waves}\n"
    write(SLIPPED, own.replace("ROW", "5"))
    assert slips(invoke, "sign.pattern.yaml") == []
    write(SLIPPED, own.replace("ROW", "6"))
    assert slips(invoke, "sign.pattern.yaml") == [BY_SIZES]
    accepted = "suppress:\n  - {rule: grid/row-slip, piece: front, size: medium, justification: the hand waves}\n"
    write(SLIPPED, pattern=PATTERN + accepted)
    assert slips(invoke) == []


def test_charts_for_which_the_rule_is_off_are_left_alone(folder: Path, invoke: Callable[..., Any]) -> None:
    write(SLIPPED)
    Path("lintarsia.yaml").write_text("overrides:\n  - {paths: [medium.chart.yaml], rules: {grid/row-slip: off}}\n")
    assert slips(invoke) == []


def test_what_the_last_commit_tells_is_not_told_again(
    repository: Path, commit: Callable[[], None], invoke: Callable[..., Any]
) -> None:
    write(MOTIF)
    commit()
    write(SLIPPED)
    [(file, said, row)] = slips(invoke)
    assert (file, row) == ("medium.chart.yaml", 5)
    assert "in the last commit" in said
    commit()
    assert slips(invoke) == [BY_SIZES]


def test_shaping_and_openings_are_no_edge_of_the_picture(folder: Path, invoke: Callable[..., Any]) -> None:
    write(SLIPPED)
    file = Path("medium.chart.yaml")
    head, grid = file.read_text().split("chart: |\n")
    lines = [f"  .{line[3:-1]}." if at < 4 else line for at, line in enumerate(grid.splitlines())]
    assert lines[0].endswith("W.")
    file.write_text(f"{head}shaping: {{7: -2}}\nchart: |\n" + "\n".join(lines) + "\n")
    assert slips(invoke, "sign.pattern.yaml") == [BY_SIZES]
