"""Lengths, masses and reaches as knitters write them. An inch is 25.4 mm, a yard 0.9144 m (international agreement,
1959), an avoirdupois ounce 28.349523125 g (the pound being 0.45359237 kg), all exactly."""

import pytest

from lintarsia.chart.measure import Length, Mass, StitchCount, parse_length, parse_mass, parse_reach


@pytest.mark.parametrize(
    ("text", "mm", "imperial", "told"),
    [
        ("7 mm", 7.0, False, "7 mm"),
        ("2.5cm", 25.0, False, "2.5 cm"),
        ("3 m", 3000.0, False, "3 m"),
        ("4 in", 101.6, True, "4 in"),
        ("2 yd", 1828.8, True, "2 yd"),
        ("12.50 cm", 125.0, False, "12.5 cm"),
        ("1234567 m", 1234567000.0, False, "1234567 m"),
    ],
)
def test_lengths(text: str, mm: float, imperial: bool, told: str) -> None:
    length = parse_length(text)
    assert [length.mm, length.metres] == pytest.approx([mm, mm / 1000])
    assert (length.imperial, str(length)) == (imperial, told)


def test_masses() -> None:
    assert parse_mass("50 g") == Mass(50.0, "g")
    assert parse_mass("1.75oz") == Mass(1.75, "oz")
    assert [str(parse_mass(text)) for text in ("50g", "3.50 oz")] == ["50 g", "3.5 oz"]
    assert parse_mass("50 g").grams == 50.0
    assert parse_mass("16 oz").grams == pytest.approx(453.59237)


def test_reaches() -> None:
    assert parse_reach(5) == parse_reach("5") == parse_reach("5 stitches") == parse_reach("5sts") == StitchCount(5)
    assert parse_reach("2.5 cm") == Length(2.5, "cm")
    assert [str(StitchCount(n)) for n in (0, 1, 2)] == ["0 stitches", "1 stitch", "2 stitches"]


@pytest.mark.parametrize(
    ("parse", "text", "said"),
    [
        (parse_length, "2,5 cm", "'2,5 cm' is not a length; write a number and mm, cm, m, in or yd"),
        (parse_length, "5", "'5' is not a length; write a number and mm, cm, m, in or yd"),
        (parse_length, "5  cm", "'5  cm' is not a length; write a number and mm, cm, m, in or yd"),
        (parse_mass, "50 cm", "'50 cm' is not a mass; write a number and g or oz"),
        (parse_reach, "far", "'far' is neither a length (2.5 cm) nor a count (5 stitches)"),
    ],
)
def test_what_is_none(parse, text: str, said: str) -> None:
    with pytest.raises(ValueError) as raised:  # noqa: PT011 - its words are compared whole
        parse(text)
    assert str(raised.value) == said
