"""Measurements as patterns print them. An inch is 25.4 mm (international yard and pound agreement, 1959)."""

from pathlib import Path

import pytest
from pattern_files import chart_text, write_pattern

from lintarsia.engine import check_paths
from lintarsia.pattern.measurement import parse_measurement


@pytest.mark.parametrize(
    ("text", "values", "steps"),
    [
        ("31 cm", [310], [10]),
        ("40.5 cm", [405], [5]),
        ("10 1/2 in", [266.7], [12.7]),
        ("10½ in", [266.7], [12.7]),
        ("10-3/4in", [273.05], [6.35]),
        ("3/4 in", [19.05], [6.35]),
        ("⅜ in", [9.525], [3.175]),
        ("40 cm / 16 in", [400, 406.4], [10, 25.4]),
        ("40 cm/15 3/4 in", [400, 400.05], [10, 6.35]),
        ("10 1/2 in / 26.5 cm", [266.7, 265], [12.7, 5]),
    ],
)
def test_what_is_read(text: str, values: list[float], steps: list[float]) -> None:
    made = parse_measurement(text)
    assert [one.length.mm for one in made.stated] == pytest.approx(values)
    assert [one.step_mm for one in made.stated] == pytest.approx(steps)
    assert str(made) == text


@pytest.mark.parametrize("text", ["16", "40 cm / 16", "1/0 in", "in", "40 cm / 16 in / 3 in", "a cm", "", "/ 3 in"])
def test_what_is_no_measurement(text: str) -> None:
    with pytest.raises(ValueError, match="is not a measurement"):
        parse_measurement(text)


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("40 cm / 16 in", ""),  # 15.7 in: nearer to 16 than to 15
        ("40 cm / 15 3/4 in", ""),
        ("40 cm / 15 in", "40 cm / 15 in is stated"),
        ("41 cm / 16 in", "41 cm / 16 in is stated"),
        ("16 in", "40.0 cm"),  # alone, 16 in is 6.4 mm off, more than a quarter of an inch
    ],
)
def test_each_number_is_compared_by_its_own_rounding(tmp_path: Path, stated: str, told: str) -> None:
    """80 stitches at 20 to 10 cm are 40 cm, 15.75 in."""
    text = f"pieces:\n  front: {{chart: f.chart.yaml, repeats: 8, measures: {{width: {stated}}}}}\n"
    file = write_pattern(tmp_path, text, f=chart_text("B" * 10))
    messages = [r.message for r in check_paths([str(file)]).results if r.rule == "size/measurement"]
    if stated == "16 in":
        assert messages == ["front: 80 stitches at 20 to 10 cm are 15.7 in wide; 16 in is stated"]
    else:
        assert [message[-len(told) :] for message in messages] == ([told] if told else [])
