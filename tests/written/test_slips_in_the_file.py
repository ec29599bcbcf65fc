"""A slip in written words is told at its place in the file, however the value is written there."""

from pathlib import Path

import pytest

from lintarsia.engine import check_paths

HEAD = """\
lintarsia: 1
title: Field
gauge: {stitches: 20, rows: 28, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
  BBBBBBBB
  BBBWWWBB
  BBBBBBBB
"""


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("written:\n  2: p3 B, p3 Q, p2 B\n", "Q"),
        ('written:\n  2: "p3 B, p3 Q, p2 B"\n', "Q"),
        ("written:\n  2: 'p3 B, p3 Q, p2 B'\n", "Q"),
        ("written: {1: k8 B, 2: p3 B p3 Q p2 B}\n", "Q"),
        ('written: {1: k8 B, 2: "p3 B, foo 3"}\n', "foo"),
        ("written:\n  2: p3 B, (p1 W, p2 B\n", "("),
        # Written over two lines: the whole value, since a place in it is no place in the file.
        ("written:\n  2: p3 B,\n     p3 Q, p2 B\n", "p3 B,\n     p3 Q, p2 B"),
        ('written:\n  2: "p3 B, \\u0070\\u0033 Q, p2 B"\n', '"p3 B, \\u0070\\u0033 Q, p2 B"'),
    ],
)
def test_the_word_that_says_nothing_is_pointed_at(tmp_path: Path, written: str, words: str) -> None:
    file = tmp_path / "field.chart.yaml"
    file.write_text(HEAD + written, encoding="utf-8")
    (result,) = [r for r in check_paths([str(file)], jobs=1).results if r.rule == "words/unreadable"]
    lines = (HEAD + written).splitlines(keepends=True)
    region = result.region
    start = sum(map(len, lines[: region.line - 1])) + region.column - 1
    end = sum(map(len, lines[: region.end_line - 1])) + region.end_column - 1
    assert "".join(lines)[start:end].rstrip("\n") == words


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ("written: {1: as row 3, 2: p8 B}\n", "row 3, which this refers to, is not written out"),
        ("written: {1: as row 3, 3: as row 1}\n", "row 1, which this refers to, refers to itself"),
        ("written: {1: as row 1}\n", "row 1, which this refers to, refers to itself"),
        ("written: {1: as row 3, 3: foo 3 Q}\n", "row 3, which this refers to, cannot be read"),
    ],
)
def test_a_row_that_refers_to_another(tmp_path: Path, written: str, message: str) -> None:
    file = tmp_path / "field.chart.yaml"
    file.write_text(HEAD + written, encoding="utf-8")
    messages = [r.message for r in check_paths([str(file)], jobs=1).results if r.rule == "words/unreadable"]
    assert any(message in told for told in messages), messages


def test_a_row_that_refers_to_one_that_is_written_is_read_as_it(tmp_path: Path) -> None:
    file = tmp_path / "field.chart.yaml"
    file.write_text(HEAD + "written: {1: as row 3, 3: k8 B}\n", encoding="utf-8")
    told = [r.rule for r in check_paths([str(file)], jobs=1).results if r.rule.startswith("words/")]
    assert told == ["words/missing-row"], "row 2 alone"
