"""Names of supplies: letters for colours whose symbols are digits, so that none can be taken for another."""

import pytest

from lintarsia.chart.supplynames import supply_name, supply_number


@pytest.mark.parametrize(
    ("symbol", "number", "name"),
    [
        ("A", 2, "A2"),
        ("k", 13, "k13"),
        ("7", 1, "7a"),
        ("7", 2, "7b"),
        ("7", 26, "7z"),
        ("7", 27, "7aa"),
        ("0", 703, "0aaa"),
    ],
)
def test_a_supply_is_named_and_found_by_its_name(symbol: str, number: int, name: str) -> None:
    assert (supply_name(symbol, number), supply_number(symbol, name)) == (name, number)


def test_every_supply_of_a_digit_has_a_name_of_its_own() -> None:
    assert [supply_number("3", supply_name("3", number)) for number in range(1, 2_000)] == list(range(1, 2_000))


@pytest.mark.parametrize(
    ("symbol", "said"), [("A", "A"), ("A", "Ab"), ("7", "7"), ("7", "72"), ("7", "7B"), ("A", "A²")]
)
def test_what_is_no_name_has_no_number(symbol: str, said: str) -> None:
    assert supply_number(symbol, said) is None
