"""Every kind of file goes through a check in one way, and what it names is read by whoever has it open."""

from pathlib import Path

import pytest

from lintarsia.engine import check_chart
from lintarsia.engine.subjects import Subject, subject_of
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.reading.source import cannot_read
from lintarsia.settings import Settings

CHART = """\
lintarsia: 1
title: Field
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
chart: |
"""
PATTERN = "lintarsia-pattern: 1\ntitle: Cushion\npieces:\n  front: {chart: front.chart.yaml, measures: {width: 5 cm}}\n"


@pytest.mark.parametrize("kind", Kind)
def test_every_kind_has_its_subject(kind: Kind) -> None:
    subject = subject_of(f"fox{kind.suffix}", b"", Settings(root="/"))
    assert isinstance(subject, Subject)
    assert subject.kind is kind is kind_of(f"fox{kind.suffix}")


def test_only_a_whole_ending_tells_the_kind() -> None:
    assert [kind_of(name) for name in ("fox.pattern.yaml", "pattern.yaml", "fox.yaml", "fox.pattern.yml")] == [
        Kind.PATTERN,
        Kind.CHART,
        Kind.CHART,
        Kind.CHART,
    ]


def told(tmp_path: Path, buffers: dict[str, bytes]) -> list[str]:
    """What a check says of the pattern where an editor has these files open, and nothing else can be read."""
    asked = []

    def read(path: str) -> bytes:
        asked.append(path)
        if path not in buffers:
            raise cannot_read("missing", "not open")
        return buffers[path]

    file = str(tmp_path / "cushion.pattern.yaml")
    results = check_chart(file, PATTERN.encode(), Settings(root=str(tmp_path)), read).results
    assert set(asked) == {str(tmp_path / "front.chart.yaml")}
    return [result.message for result in results]


def test_a_chart_that_was_never_saved_is_read_from_the_editor(tmp_path: Path) -> None:
    chart = (CHART + f"  {'B' * 12}\n" * 20).encode()
    (message,) = told(tmp_path, {str(tmp_path / "front.chart.yaml"): chart})
    assert message == "front: 12 stitches at 20 to 10 cm are 6.0 cm wide; 5 cm is stated"


def test_what_the_editor_has_stands_for_what_is_on_the_disk(tmp_path: Path) -> None:
    (tmp_path / "front.chart.yaml").write_text(CHART + f"  {'B' * 12}\n" * 20, encoding="utf-8")
    assert told(tmp_path, {str(tmp_path / "front.chart.yaml"): (CHART + f"  {'B' * 10}\n" * 20).encode()}) == []


def test_what_neither_has_is_not_there(tmp_path: Path) -> None:
    assert told(tmp_path, {}) == ["front: there is no chart 'front.chart.yaml'"]


def test_a_pattern_names_its_charts_and_a_chart_nothing(tmp_path: Path) -> None:
    pattern = subject_of("in/cushion.pattern.yaml", PATTERN.encode(), Settings(root="/"))
    chart = subject_of("front.chart.yaml", CHART.encode(), Settings(root="/"))
    for subject in (pattern, chart):
        subject.read()
    assert list(pattern.named()) == ["in/front.chart.yaml"]
    assert list(chart.named()) == []
