"""What repeats in a row is said once where that is shorter: against every way to say a row, tried one by one.

The words are measured as they are printed, one character less for each pair of brackets, which read better than the
same stitches twice over. A repeat takes all that it can, brackets stand in brackets once.
"""

import random
from functools import cache
from itertools import pairwise

import pytest

from lintarsia.written.folding import Part, Repeated, fold, stitches_of, unfold
from lintarsia.written.order import ColourSupply, YarnStretch
from lintarsia.written.rowphrase import row_phrase

Row = tuple[YarnStretch, ...]
KINDS = {
    **{f"{n}{c}": YarnStretch(ColourSupply(c), n) for n in (1, 2, 3, 8, 12, 20, 21, 40, 41) for c in "ABC"},
    "1A7": YarnStretch(ColourSupply("A", 7), 1),
    "1A12": YarnStretch(ColourSupply("A", 12), 1),
    "ssk": YarnStretch(ColourSupply("A"), 1, "ssk"),
    "1p": YarnStretch(ColourSupply("A"), 1, "p"),
}


def stretches(text: str) -> Row:
    return tuple(KINDS[name] for name in text.split())


def said(row: Row) -> str:
    return row_phrase(fold(row), "k", stars=False)


def measured(parts: tuple[Part, ...]) -> int:
    words = row_phrase(parts, "k", stars=False)
    return len(words) + len(", ") - words.count("[")


@cache
def shortest(row: Row, deep: int = 2) -> int:
    """The measure of the shortest words, by trying what may stand first."""
    if not row:
        return 0
    best = measured(row[:1]) + shortest(row[1:], deep)
    for period in range(1, len(row) // 2 + 1) if deep else ():
        times = 1
        while row[period * times : period * (times + 1)] == row[:period]:
            times += 1
        if times > 1:
            inside = shortest(row[:period], deep - 1) + len("[]  times, ") - len(", ") + len(str(times)) - 1
            best = min(best, inside + shortest(row[period * times :], deep))
    return best


def brackets(parts: tuple[Part, ...]) -> int:
    """How many stand in each other."""
    return max((1 + brackets(part.parts) for part in parts if isinstance(part, Repeated)), default=0)


def joined(row: Row) -> bool:
    """Whether two like neighbours would be one stretch in a row that was worked."""
    return any((one.yarn, one.stitch) == (two.yarn, two.stitch) for one, two in pairwise(row))


def test_no_other_words_are_shorter() -> None:
    dice = random.Random(5)
    kinds = ["1A", "1B", "2A", "12B", "1C", "1A7", "1A12"]
    rows: list[Row] = []
    while len(rows) < 200:
        some = dice.sample(kinds, dice.choice([2, 2, 3]))
        motif = dice.choices(some, k=dice.randint(1, 4))
        row = stretches(" ".join((motif * 5)[: dice.randint(3, 11)] + dice.choices(some, k=dice.randint(0, 4))))
        if not joined(row):
            rows.append(row)
    for row in rows:
        assert unfold(fold(row)) == list(row)
        assert stitches_of(fold(row)) == sum(stretch.count for stretch in row)
        assert measured(fold(row)) <= shortest(row), said(row)
        assert brackets(fold(row)) <= 2, said(row)
    assert sum(len(fold(row)) < len(row) for row in rows) > 50, "too few rows repeat anything"


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("1A 2B 1A 2B", "[k1 A, k2 B] 2 times"),
        ("1A 1B 1A", "k1 A, k1 B, k1 A"),
        ("1A 2B 1A 1B", "k1 A, k2 B, k1 A, k1 B"),
        ("3C 1A 2B 1A 2B 1A 2B", "k3 C, [k1 A, k2 B] 3 times"),
        # A motif that begins and ends in one colour: its ends are one stretch where it meets itself.
        ("2A 1B 3A 1B 3A 1B 1A", "[k2 A, k1 B, k1 A] 3 times"),
        ("20A 8B 40A 8B 20A", "[k20 A, k8 B, k20 A] 2 times"),
        ("21A 8B 41A 8B 20A", "k21 A, k8 B, k41 A, k8 B, k20 A"),  # 49 stitches are more than one finds again
        ("2A 1B 3A 1B 3A 1B 2A", "k2 A, k1 B, [k3 A, k1 B] 2 times, k2 A"),
        # Brackets in brackets once, and the shorter repeat before the one that is a multiple of it.
        ("1A 1B 1A 1B 1A 1B 3C 1A 1B 1A 1B 1A 1B 3C", "[[k1 A, k1 B] 3 times, k3 C] 2 times"),
        ("1A 1B 1A 1B 1A 1B 1A 1B", "[k1 A, k1 B] 4 times"),
        ("ssk ssk", "ssk A, ssk A"),
        ("ssk ssk 2B ssk ssk 2B ssk ssk 2B", "[ssk A, ssk A, k2 B] 3 times"),
        ("1A 1p 1A 1p 1A 1p", "[k1 A, p1 A] 3 times"),
    ],
)
def test_what_is_said_of_rows(row: str, words: str) -> None:
    assert said(stretches(row)) == words


def test_brackets_stand_in_brackets_once() -> None:
    pair = "1A 1B " * 4 + "2A "
    row = stretches((pair * 3 + "2C ") * 3)
    assert brackets(fold(row)) == 2
    assert said(stretches(pair * 3)) == "[[k1 A, k1 B] 4 times, k2 A] 3 times"


def test_a_repeat_of_more_than_24_stretches_is_said_in_full() -> None:
    """It would hardly be found again in the knitting."""
    long = [YarnStretch(ColourSupply("ABC"[at % 3]), at + 2) for at in range(25)]
    assert len(fold((*long[:24], *long[:24]))) == 1
    assert len(fold((*long, *long))) == 50


def test_all_that_a_repeat_holds_is_counted_and_unfolded() -> None:
    inner = Repeated(stretches("1A 2B"), 3)
    parts: list[Part] = [*stretches("3C"), Repeated((inner, *stretches("2A")), 2)]
    assert stitches_of(parts) == 3 + 2 * (3 * 3 + 2)
    assert unfold(parts) == list(stretches("3C " + ("1A 2B " * 3 + "2A ") * 2))
