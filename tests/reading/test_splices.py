"""Edits as splices of a text: which cannot both be meant, and what the text is with the others put in."""

import pytest

from lintarsia.mending.picking import choose
from lintarsia.reading.applying import MARK, Splice, apply, edited, parted, splices
from lintarsia.reading.source import Lines
from lintarsia.result import Edit, Fix, Level, Region, Result

LINE, OTHER = "\n  A: 1", "\n  B: 2"


@pytest.mark.parametrize(
    ("one", "other", "clash"),
    [
        (Splice(2, 5, ""), Splice(5, 9, ""), False),  # side by side
        (Splice(2, 6, ""), Splice(5, 9, ""), True),
        (Splice(2, 9, ""), Splice(4, 5, ""), True),
        (Splice(2, 5, ""), Splice(2, 5, ""), True),
        (Splice(2, 5, ""), Splice(7, 9, ""), False),
        (Splice(5, 5, "x"), Splice(5, 9, ""), True),  # does it come before what is replaced, or instead
        (Splice(9, 9, "x"), Splice(5, 9, ""), True),
        (Splice(7, 7, "x"), Splice(5, 9, ""), True),
        (Splice(4, 4, "x"), Splice(5, 9, ""), False),
        (Splice(10, 10, "x"), Splice(5, 9, ""), False),
        (Splice(4, 4, "x"), Splice(5, 5, "y"), False),
        (Splice(5, 5, "x"), Splice(5, 5, "y"), True),
        (Splice(5, 5, LINE), Splice(5, 5, OTHER), False),  # entries of one list
        (Splice(5, 5, LINE), Splice(5, 5, "y"), True),
        (Splice(5, 5, LINE), Splice(5, 5, "\n  a\n  b"), True),
        (Splice(5, 5, LINE), Splice(5, 5, "\n  a\r  b"), True),
        (Splice(5, 5, LINE), Splice(5, 5, "\n\n  a"), True),
        (Splice(5, 5, "\r\n  A: 1"), Splice(5, 5, "\r\n  B: 2"), False),
        (Splice(5, 5, "\r\n  A: 1"), Splice(5, 5, "\r\n  B\r\n"), True),
        (Splice(5, 5, "\r  A: 1"), Splice(5, 5, "\r  B"), False),
    ],
)
def test_what_cannot_both_be_meant(one: Splice, other: Splice, clash: bool) -> None:
    assert one.clashes(other) is other.clashes(one) is clash


def test_insertions_at_one_place_stand_in_the_order_given() -> None:
    assert apply("abcdefgh", [Splice(6, 8, "Z"), Splice(2, 2, "z"), Splice(2, 2, "a"), Splice(3, 5, "")]) == "abzacfZ"
    assert apply("abc", []) == "abc"
    assert apply("abc", [Splice(3, 3, "d"), Splice(0, 1, "")]) == "bcd"


def test_a_mark_is_kept_apart() -> None:
    assert parted(MARK + "é".encode()) == (MARK, "é")
    assert parted("é".encode()) == (b"", "é")


TEXT = "one\ntwo\nthree\n"


def edit(line: int, column: int, end_line: int, end_column: int, text: str = "") -> Edit:
    return Edit(Region(line, column, end_line, end_column), text)


@pytest.mark.parametrize(
    ("edits", "found"),
    [
        ((edit(3, 2, 3, 4, "x"), edit(1, 1, 2, 2)), (Splice(9, 11, "x"), Splice(0, 5, ""))),
        ((edit(1, 4, 1, 4, "!"),), (Splice(3, 3, "!"),)),
        ((), None),
        ((edit(5, 1, 5, 2),), None),  # no such line
        ((edit(1, 9, 1, 9),), None),
        ((edit(2, 3, 2, 1),), None),  # backwards
        ((edit(1, 1, 1, 2), edit(2, 3, 2, 1)), None),
        ((edit(2, 1, 2, 3), edit(2, 2, 2, 4)), None),  # its own edits clash
        ((edit(2, 2, 2, 4), edit(2, 1, 2, 3)), None),
    ],
)
def test_a_fix_as_splices(edits: tuple[Edit, ...], found: tuple[Splice, ...] | None) -> None:
    assert splices(Fix("x", edits), Lines(TEXT)) == found


def test_edits_of_one_hand_are_put_in_and_a_place_that_is_not_there_is_refused() -> None:
    edits = [edit(3, 1, 3, 3, "T"), edit(1, 4, 1, 4, "!"), edit(1, 4, 1, 4, "?")]
    assert edited(TEXT, edits) == "one!?\ntwo\nTree\n"
    with pytest.raises(ValueError, match="no line 5"):
        edited(TEXT, [edit(5, 1, 5, 1)])


def result(line: int, *fixes: Fix, suppressed: bool = False) -> Result:
    return Result("a/b", "k", Level.NOTE, "m", "f", Region(line, 1, line, 2), fixes=fixes, suppressed=suppressed)


def test_fixes_are_chosen_in_the_order_of_their_places() -> None:
    text = "x" * 1000 + "\n" + "y" * 500 + "\n"
    wide = Fix("wide", (edit(1, 90, 1, 900),))
    inside = Fix("inside", (edit(1, 450, 1, 460, "z"),))
    risky, safe = Fix("risky", (edit(2, 1, 2, 2),), safe=False), Fix("safe", (edit(2, 4, 2, 5),))
    results = [result(9, inside), result(1, wide), result(4, risky, safe), result(5, safe, suppressed=True)]

    def names(*, risky: bool) -> list[str]:
        return [choice.fix.description for choice in choose(results, text, risky=risky)]

    assert names(risky=False) == ["wide", "safe"]
    assert names(risky=True) == ["wide", "risky"]
    results[1] = result(1, Fix("nowhere", (edit(7, 1, 7, 2),)))
    assert names(risky=False) == ["safe", "inside"]
