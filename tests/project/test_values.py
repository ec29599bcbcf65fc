"""Our frozen dataclasses, held against the standard ones, which they stand in for."""

import pickle
from collections.abc import Callable
from copy import copy, deepcopy
from dataclasses import FrozenInstanceError, field, fields, is_dataclass, replace
from dataclasses import dataclass as standard
from functools import cached_property
from typing import Any

import pytest

from lintarsia.ground.values import dataclass as ours


@ours(frozen=True, slots=True)
class Yarn:
    name: str
    balls: int = 1
    shades: dict[str, str] = field(default_factory=dict, repr=False)


@standard(frozen=True, slots=True)
class StandardYarn:
    name: str
    balls: int = 1
    shades: dict[str, str] = field(default_factory=dict, repr=False)


@ours(frozen=True, eq=False)
class Late:
    """Docstring kept."""

    number: int

    @cached_property
    def double(self) -> int:
        return 2 * self.number


@ours(frozen=True, slots=True)
class Positive:
    number: int

    def __post_init__(self) -> None:
        if self.number < 1:
            raise ValueError("below 1")


@ours(frozen=True, slots=True)
class Nothing:
    pass


CALLS: list[Callable[[Any], Any]] = [
    lambda make: make("Fjord"),
    lambda make: make("Fjord", 2, {"B": "blue"}),
    lambda make: make(balls=3, name="Fjord"),
    lambda make: replace(make("Fjord", 2), balls=5),
    lambda make: copy(make("Fjord", 2)),
    lambda make: deepcopy(make("Fjord", 2, {"B": "blue"})),
    lambda make: pickle.loads(pickle.dumps(make("Fjord", 2, {"B": "blue"}))),
]


@pytest.mark.parametrize("call", CALLS)
def test_values_are_made_shown_and_compared_as_the_standard_ones(call: Callable[[Any], Any]) -> None:
    mine, theirs = call(Yarn), call(StandardYarn)
    assert repr(mine) == repr(theirs).removeprefix("Standard")
    assert [getattr(mine, f.name) for f in fields(mine)] == [getattr(theirs, f.name) for f in fields(theirs)]
    assert mine == call(Yarn)
    assert (mine == Yarn("Fjord")) is (theirs == StandardYarn("Fjord"))
    assert mine != theirs


def test_the_class_answers_as_a_standard_one() -> None:
    assert is_dataclass(Yarn)
    assert Yarn.__match_args__ == ("name", "balls", "shades")
    assert Yarn.__slots__ == ("name", "balls", "shades")
    assert Yarn.__dataclass_params__.frozen  # type: ignore[attr-defined]
    assert Yarn.__init__.__qualname__ == "Yarn.__init__"
    assert Late.__doc__ == "Docstring kept."
    assert Yarn("a").shades is not Yarn("b").shades


@pytest.mark.parametrize("wrong", [(), ("a", 1, {}, 4)])
def test_wrong_arguments_are_refused_by_name(wrong: tuple[Any, ...]) -> None:
    with pytest.raises(TypeError, match=r"Yarn\.__init__\(\)"):
        Yarn(*wrong)


def test_fields_cannot_be_set_or_deleted() -> None:
    yarn = Yarn("Fjord")
    with pytest.raises(FrozenInstanceError, match="cannot assign to field 'name'"):
        yarn.name = "Other"  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError, match="cannot delete field 'name'"):
        del yarn.name
    with pytest.raises(FrozenInstanceError):
        yarn.colour = "red"  # type: ignore[attr-defined]
    with pytest.raises(FrozenInstanceError):
        Late(1).number = 2  # type: ignore[misc]


def test_equal_values_hash_alike_and_others_compare_by_identity() -> None:
    assert hash(Positive(3)) == hash(Positive(3))
    assert {Positive(3), Positive(3), Positive(4)} == {Positive(3), Positive(4)}
    assert Nothing() == Nothing()
    assert Late(3) != Late(3)
    assert len({Late(3), Late(3)}) == 2


def test_what_is_worked_out_late_is_kept() -> None:
    late = Late(4)
    assert late.double == 8
    assert late.__dict__ == {"number": 4, "double": 8}
    assert pickle.loads(pickle.dumps(late)).number == 4


def test_a_check_of_its_own_is_made_after_the_fields_are_set() -> None:
    assert Positive(1).number == 1
    with pytest.raises(ValueError, match="below 1"):
        Positive(0)


def test_only_frozen_ones_are_made() -> None:
    with pytest.raises(TypeError, match="frozen"):

        @ours(frozen=False)
        class Loose:
            number: int


WRONG: list[Callable[[Any], Any]] = [
    lambda make: make(),
    lambda make: make("Fjord", 2, {}, 4),
    lambda make: make("Fjord", name="Fjord"),
    lambda make: make("Fjord", weight=3),
]


@pytest.mark.parametrize("call", WRONG)
@pytest.mark.parametrize("before", [0, 9])
def test_arguments_that_do_not_fit_are_refused_alike_by_the_first_value_and_by_the_tenth(
    call: Callable[[Any], Any], before: int
) -> None:
    @ours(frozen=True, slots=True)
    class StandardYarn:
        name: str
        balls: int = 1
        shades: dict[str, str] = field(default_factory=dict, repr=False)

    made = [StandardYarn(f"Fjord {number}") for number in range(before)]
    assert [(one.name, one.balls, one.shades) for one in made] == [(f"Fjord {n}", 1, {}) for n in range(before)]
    with pytest.raises(TypeError) as refused:
        call(StandardYarn)
    with pytest.raises(TypeError) as standard_refused:
        call(globals()["StandardYarn"])
    assert str(refused.value).rpartition(".")[2] == str(standard_refused.value).rpartition(".")[2]
