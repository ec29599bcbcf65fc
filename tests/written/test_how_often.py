"""How often a thing is worked, in the ways that patterns print it (common practice), and how far these words reach."""

import pytest

from lintarsia.chart import Chart
from lintarsia.chart.sides import Sides
from lintarsia.reading import read_chart
from lintarsia.written.colours import Colours
from lintarsia.written.folding import Part, Repeated, fold, unfold
from lintarsia.written.kindwords import kind_words
from lintarsia.written.lexer import NotUnderstood, tokens_of
from lintarsia.written.often import often_after, read_until
from lintarsia.written.order import ColourSupply, YarnStretch
from lintarsia.written.parser import parse_row
from lintarsia.written.remarks import without_clause
from lintarsia.written.rowphrase import row_phrase
from lintarsia.written.spoken import HowOften, StitchWork, Times, Until


@pytest.mark.parametrize(
    ("words", "often", "rest"),
    [
        ("4 times, k1 A", Times(4), ", k1 A"),
        ("x 4 k1", Times(4), "k1"),
        ("× 4 k1", Times(4), "k1"),
        ("4 x k1", Times(4), "k1"),
        ("twice more k1", Times(2), "k1"),
        ("once", Times(1), ""),
        ("thrice in all, k1", Times(3), ", k1"),
        ("three times in total k1", Times(3), "k1"),
        ("5 more times k1", Times(5), "k1"),
        ("5 times more k1", Times(5), "k1"),
        ("5 times altogether k1", Times(5), "k1"),
        ("5 times total k1", Times(5), "k1"),
        (", rep 4 times k1", Times(4), "k1"),
        ("; repeat 4 times k1", Times(4), "k1"),
        ("– × 3 k1", Times(3), "k1"),
        (", k1 A", None, ", k1 A"),
        (", rep from * twice", None, ", rep from * twice"),
        ("rep between stars", None, "rep between stars"),
        ("4 sts", None, "4 sts"),
        ("to end, k1", Until(0), ", k1"),
    ],
)
def test_times(words: str, often: HowOften | None, rest: str) -> None:
    found, at = often_after(tokens_of(f"{words} ."), 0)
    assert (found, left(words, at)) == (often, rest)


def left(words: str, at: int) -> str:
    """What is not read yet."""
    text = f"{words} ."
    return text[tokens_of(text)[at].start :].removesuffix(".").strip()


@pytest.mark.parametrize(
    ("words", "stitches", "rest"),
    [
        ("to end k1", 0, "k1"),
        ("to the end of the row k1", 0, "k1"),
        ("to end of this round k1", 0, "k1"),
        ("to last st k1", 1, "k1"),
        ("to the last 2 sts k1", 2, "k1"),
        ("to within 3 sts of the end, k1", 3, ", k1"),
        ("until 2 sts remain, k1", 2, ", k1"),
        ("until two sts are left, k1", 2, ", k1"),
        ("till 2 sts before the end, k1", 2, ", k1"),
        ("to final stitch k1", 1, "k1"),
        ("across, k1", 0, ", k1"),
        ("all across the row, k1", 0, ", k1"),
        ("around, k1", 0, ", k1"),
        ("all sts, k1", 0, ", k1"),
        ("every st, k1", 0, ", k1"),
        ("throughout, k1", 0, ", k1"),
        ("the whole row, k1", 0, ", k1"),
        ("the entire round, k1", 0, ", k1"),
        ("the row, k1", 0, ", k1"),
        ("complete the row, k1", 0, ", k1"),
        ("complete row, k1", 0, ", k1"),
        ("rest of row, k1", 0, ", k1"),
        ("the rest, k1", 0, ", k1"),
        ("rem sts, k1", 0, ", k1"),
        ("the remaining stitches, k1", 0, ", k1"),
        ("1 row, k1", 0, ", k1"),
        ("2 rows, k1", None, "2 rows, k1"),
        ("across next 6 sts, k1", None, "across next 6 sts, k1"),
        ("across the first 6 sts, k1", None, "across the first 6 sts, k1"),
        ("to A, k1", None, "to A, k1"),
        ("the neck, k1", None, "the neck, k1"),
        ("complete the piece, k1", None, "complete the piece, k1"),
        ("rem 3, k1", None, "rem 3, k1"),
        ("k1", None, "k1"),
    ],
)
def test_until(words: str, stitches: int | None, rest: str) -> None:
    found, at = read_until(tokens_of(f"{words} ."), 0)
    assert (found, left(words, at)) == (None if stitches is None else Until(stitches), rest)


A, B = ColourSupply("A"), ColourSupply("B")


def stretches(text: str) -> list[YarnStretch]:
    """`3A 6B` as stretches."""
    return [YarnStretch(A if part[-1] == "A" else B, int(part[:-1])) for part in text.split()]


@pytest.mark.parametrize(
    ("text", "stars", "phrase"),
    [
        ("3A 6B 3A", True, "k3 A, k6 B, k3 A"),
        ("1A 2B 1A 2B 1A 2B", True, "*k1 A, k2 B; rep from * to end"),
        ("2A 2B 2A 2B 2A 2B 1A", True, "*k2 A, k2 B; rep from * to last 1 st, k1 A"),
        ("1A 2B 1A 2B 1A 2B 2A", True, "*k1 A, k2 B; rep from * to last 2 sts, k2 A"),
        ("5B 1A 2B 1A 2B 1A 2B", True, "k5 B, *k1 A, k2 B; rep from * to end"),
        ("1A 2B 1A 2B 1A 2B", False, "[k1 A, k2 B] 3 times"),
        ("1A 2B 1A 2B 9A", True, "[k1 A, k2 B] 2 times, k9 A"),
        ("1A 2B 1A 2B 1A 2B 9A", True, "[k1 A, k2 B] 3 times, k9 A"),
    ],
)
def test_a_repeat_that_fills_most_of_the_row_has_an_asterisk(text: str, stars: bool, phrase: str) -> None:
    assert row_phrase(fold(stretches(text)), "k", stars=stars) == phrase


def test_a_fold_says_every_stitch_again() -> None:
    def unfolded(parts: list[Part] | tuple[Part, ...]) -> str:
        return "".join(
            unfolded(part.parts) * part.times if isinstance(part, Repeated) else part.yarn.symbol * part.count
            for part in parts
        )

    for text in ("1A 2B " * 9, "1A 1B " * 40 + "3A", "2A 1B 2A 3B " * 5, "1A 1B 1A 1B 5A 1B 1A 1B 1A 5A"):
        flat = "".join(s.yarn.symbol * s.count for s in stretches(text))
        folded = fold(stretches(text))
        assert unfolded(list(folded)) == flat
        assert len(folded) < len(stretches(text))


def textured(rows: str, worked: str = "flat") -> Chart:
    width = len(rows.split()[0])
    text = (
        f"lintarsia: 1\ntitle: T\nworked: {worked}\ngauge: {{stitches: 20, rows: 28, over: 10 cm}}\n"
        'colours: {B: {name: Blue, shade: "#27406b"}}\nchart: |\n'
        + f"  {'B' * width}\n" * len(rows.split())
        + "stitches: |\n"
        + "".join(f"  {row}\n" for row in rows.split())
    )
    chart = read_chart("t.chart.yaml", text.encode()).chart
    assert chart is not None
    return chart


@pytest.mark.parametrize(
    ("rows", "row", "words"),
    [
        ("...... ..pp..", 1, "k2, p2, k2"),
        ("...... .ppp..", 1, "k2, p3, k1"),
        (".ppp.. ......", 2, "p1, k3, p2"),
        ("...... pkpkpk", 1, "[k1, p1] 3 times"),
        ("...... ......", 1, ""),
        ("...pp. ......", 1, ""),
    ],
)
def test_knit_and_purl_alone(rows: str, row: int, words: str) -> None:
    """From the right in row 1, from the left in row 2, where what shows a purl is knitted."""
    chart = textured(rows)
    if chart.texture is None:
        return
    (stint,) = Sides(chart).stints(row)
    assert kind_words(chart, stint) == words


def test_unfolding_gives_the_stretches_back() -> None:
    for text in ("3A", "1A 2B 1A 2B 1A 2B 1A", "2A 1B 2A 1B 2A 1B 5A 1B 1A 1B 1A"):
        assert unfold(fold(stretches(text))) == stretches(text)


@pytest.mark.parametrize(
    ("words", "bad", "left"),
    [
        ("k3 A, mind the dog, k2 B", "dog", "k3 A,             , k2 B"),
        ("mind the dog; k3 A", "dog", "            ; k3 A"),
        ("k3 A (dog ears)", "ears", "k3 A (        )"),
        ("k3 A, mind 3 dogs", "dogs", None),
        ("k3 A, mind three dogs", "dogs", None),
        ("k3 A, knit dogs", "dogs", None),
        ("k3 A, *dogs", "dogs", None),
        ("k3 A, mind the sts", "mind", None),
        ("k3 A, -", "-", None),
    ],
)
def test_a_remark_is_a_clause_that_counts_and_works_nothing(words: str, bad: str, left: str | None) -> None:
    at = words.index(bad)
    assert without_clause(words, NotUnderstood("what?", at, at + len(bad))) == left


@pytest.mark.parametrize(
    ("words", "items"),
    [
        ("BO 3 sts at beg of row, k to end", [("bo", 3, "", 1, 0)]),
        ("BO 3 sts knitwise, k to end", [("bo", 3, "", 1, 0)]),
        ("CO 2 sts at end of row in B", [("co", 2, "B", 0, 1)]),
        ("CO 2 sts B loosely", [("co", 2, "B", 0, 1)]),
        ("CO 2 sts for armhole", [("co", 2, "", 0, 1)]),
        ("inc 1 A", [("inc", 1, "A", 1, 2)]),
        ("dec 1 in B", [("dec", 1, "B", 2, 1)]),
    ],
)
def test_shaping_with_its_place_and_colour(words: str, items: list[tuple[str, int, str, int, int]]) -> None:
    spoken = parse_row(words, Colours("AB", {}))
    shaped = [item for item in spoken.items if isinstance(item, StitchWork) and item.takes != item.makes]
    found = [
        (item.stitch, item.often.number if isinstance(item.often, Times) else -1,
         item.yarn.symbol if item.yarn else "", item.takes, item.makes)
        for item in shaped
    ]  # fmt: skip
    assert found == items
