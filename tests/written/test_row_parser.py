"""The usual ways of writing a row, and what cannot be followed. The ways are common practice in printed patterns."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.written.colours import Colours
from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.parser import parse_row
from lintarsia.written.spoken import Label
from lintarsia.written.working import Uneven, work_out

COLOURS = Colours("AB1#kMx-", {"A": "Dusk blue", "B": "Bone", "M": "Moss"})

BLOCK = [
    "3 dusk, 6 bone, 3 dusk",
    "With blue, k3; k6 bone, k to end blue",
    "k3 A, k6 B, k3 A",
    "K3A, K6B, K3A.",
    "k3A k6B k3A",
    "k3A6B3A",
    "3 A, 6 B, 3 A",
    "3A 6B 3A",
    "Knit 3 in A, knit 6 in B, knit 3 in A",
    "A x 3, B x 6, A x 3",
    "A × 3; B × 6; A × 3",
    "A3 B6 A3",
    "A 3, B 6, A 3",
    "with A k3, with B k6, with A k3",
    "With A, k3; with B, k6; with A, k3",
    "k3 dusk blue, k6 bone, k3 Dusk Blue",
    "Row 5 (RS): k3 A, k6 B, k3 A. (12 sts)",
    "RS: k3 a, k6 b, k3 a [12 sts]",
    "k3 A, k6 B, k to end A",
    "k3 A, k6 B, A to end",
    "k3 A, k to last 3 sts B, k3 A",
    "k3 A, k to last 3 sts in B, k3 A. 12 sts",
    "3 sts A, 6 sts B, 3 sts A",
    "3 sts in A, 6 sts in B, 3 sts in A = 12 sts",
    "(k3 A) x 1, [k3 B] twice, k3 A",
    "(k1 A) x 3, (k1 B) x 6, k3 A",
    "*k1 A; rep from * to last 9 sts, *k1 B; rep from * to last 3 sts, k3 A",
    "A k3, B k6, A k3",
    "in A: knit 3, in B: knit 6, in A: knit 3",
    "p3 A1, p6 B1, p3 A2",
    "p3 'A1', p6 \"B\", p3 “A”",
    "k3 with A, k6 with B, k3 with A",
    "Work 3 A, 6 B and 3 A.",
    "3 Dusk blue, 6 Bone, 3 Dusk blue",
    "k 3 A, k 6 B, k 3 A",
    "K3 (A), K6 (B), K3 (A)",
    "dec 1 st at each end; k3 A, k6 B, k3 A",
    "join B1 and A2; k3 A1, k6 B1, k3 A2. (12 sts) Cut B1 and A1.",
    "12 sts: k3 A, k6 B, k3 A",
    "change to A, k3, change to B, k6, change to A, k3",
    "using A knit 3, using B knit 6, using A knit to end",
    "3xA, 6xB, 3xA",
    "3 x A, 6 x B, 3 x A",
    "k3 A, k6 B, k3 A (12)",
]
TURN = [
    "[k1 A, k1 B] 6 times",
    "(k1 A, k1 B) x 6",
    "(k1A, k1B) x6",
    "(A, B) 6 times",
    "*k1 A, k1 B; rep from * to end",
    "*k1 A, k1 B* rep from * to * 5 times more",
    "*k1 A, k1 B; rep from * 6 times in all",
    "*k1 A, k1 B; rep from * 6 times altogether",
    "*A, B; repeat from * to end of row.",
    "*k1 A, k1 B, rep from * 5 times",
    "*k1 A, k1 B, rep from * 5 more times",
    "6 x (k1 A, k1 B)",
    "6 times [k1 A, k1 B]",
    "[[k1 A, k1 B] twice, k1 A, k1 B] twice",
    "*[k1 A, k1 B] twice, k1 A, k1 B; rep from * once more",
    "*k1 A, k1 B; rep from * to last 2 sts, k1 A, k1 B",
    "*K1 A. K1 B. Repeat from * across",
    "rep (k1 A, k1 B) six times",
    "*k1 A, k1 B* 6 times",
    "*k1 A, k1 B*, repeat to end",
    "Rnd 3: *1 A, 1 B; rep from * around",
    "[k1 A, k1 B] to end",
    "[k1 A, k1 B] to last 2 sts, A, B",
    "(k1 A, k1 B) 6x",
    "(k1 A, k1 B) rep 6 times",
    "(k1 A, k1 B) repeat 6 times",
    "**k1 A, k1 B; rep from ** to end",
    "*k1 A, k1 B; rep from * until end",
    "*k1 A, k1 B; rep from * until 2 sts remain, k1 A, k1 B",
    "[k1 A, k1 B] 6 times in all",
]
ODD_SYMBOLS = [
    "k3 1, k3 #, k3 k, k3 M",
    'k3 "1", k3 "#", k3 "k", k3 M',
    "3 1, 3 #, 3 k, 3 M",
    "k3 '1', k3 # k3 k k3 M",
]


OFTEN = "expected `to end`, `to last 2 sts` or `3 times more`"
PIECES = [
    "k3",
    "A",
    "B",
    "1",
    " ",
    ", ",
    "*",
    "rep from *",
    "to end",
    "to last 2 sts",
    "[",
    "]",
    "(",
    ")",
    "4 times",
    "x",
    "with",
]
PIECES += [
    "twice",
    "p",
    "knit",
    "'",
    '"',
    ";",
    "dec 1 st",
    "at each end",
    "join",
    "Row 3:",
    "as row 2",
    "22 sts",
    "ssk",
    "12",
]


def worked(text: str, stitches: int) -> str:
    made = work_out(parse_row(text, COLOURS).items, stitches)
    assert not made.uneven
    return "".join(made.symbols)


@pytest.mark.parametrize("text", BLOCK)
def test_three_six_three(text: str) -> None:
    assert worked(text, 12) == "AAABBBBBBAAA"


@pytest.mark.parametrize("text", TURN)
def test_one_and_one_six_times(text: str) -> None:
    assert worked(text, 12) == "AB" * 6


@pytest.mark.parametrize("text", ODD_SYMBOLS)
def test_symbols_that_are_no_letters_or_mean_a_stitch(text: str) -> None:
    assert worked(text, 12) == "111###kkkMMM"


@pytest.mark.parametrize(
    ("text", "label"),
    [
        ("Row 5 (RS): k3 A", Label((5,), "RS")),
        ("ROW 5 [WS] - p3 A", Label((5,), "WS")),
        ("Rnd 5. k3 A", Label((5,), "")),
        ("Rows 5 and 7 (right side): k3 A", Label((5, 7), "RS")),
        ("Rounds 5–8: k3 A", Label((5, 6, 7, 8), "")),
        ("5th row: k3 A", Label((5,), "")),
        ("WS row 6: p3 A", Label((6,), "WS")),
        ("WS: p3 A", Label((), "WS")),
        ("(RS) k3 A", Label((), "RS")),
        ("k3 A", Label((), "")),
    ],
)
def test_what_stands_before_the_row(text: str, label: Label) -> None:
    spoken = parse_row(text, COLOURS)
    assert spoken.label == label
    assert "".join(work_out(spoken.items, 3).symbols) == "AAA"


@pytest.mark.parametrize(
    "text", ["k3 A (3 sts)", "k3 A. [3 stitches]", "k3 A = 3 sts", "k3 A (3)", "3 sts: k3 A", "k3 A – 3 sts"]
)
def test_a_stated_count(text: str) -> None:
    assert parse_row(text, COLOURS).stated == 3


@pytest.mark.parametrize(
    ("text", "waiting", "made"),
    [
        ("ssk A, k to last 2 sts in B, k2tog A", 12, "ABBBBBBBBA"),
        ("kfb A, k to last st B, kfb A", 6, "AABBBBAA"),
        ("k1 A, m1 B, k to end A", 4, "ABAAA"),
        ("sl1 A, k to end B", 4, "ABBB"),
        ("k A to end", 5, "AAAAA"),
        ("knit in dusk blue", 5, "AAAAA"),
        ("M1, k1 M, M 3", 5, "MMMMM"),
        ("no stitches. (0 sts)", 0, ""),
    ],
)
def test_shaping_and_whole_rows(text: str, waiting: int, made: str) -> None:
    colours = COLOURS if "M1" in text or "M" not in text else Colours("AB", {"A": "Dusk blue"})
    if "m1" in text:  # where M is no colour, it makes a stitch
        colours = Colours("AB", {})
    assert "".join(work_out(parse_row(text, colours).items, waiting).symbols) == made


def test_a_repeat_that_does_not_come_out_is_said() -> None:
    made = work_out(parse_row("*k1 A, k2 B; rep from * to last 2 sts, k2 A", COLOURS).items, 12)
    assert made.uneven == [Uneven(3, 1, 2)]


@pytest.mark.parametrize(
    ("text", "message", "word"),
    [
        ("k3 A, foo 3", "'foo' says nothing here; expected stitches such as k3 A", "foo"),
        ("k3 A, k6 C", "there is no colour 'C' in the key; it has #, -, 1, A, B, M, k, x", "C"),
        ("k3 Bane", "'Bane' says nothing here; did you mean 'Bone'?", "Bane"),
        ("k3 'Bane'", "'Bane' is no colour of the key", "'Bane'"),
        ("(k1 A, k1 B), k3 A", "nothing says how often the bracket is worked; expected `4 times`", ")"),
        ("[k1 A, k1 B", "this bracket is not closed; expected ']'", "["),
        ("k1 A), k1 B", "this bracket closes nothing", ")"),
        ("(k1 A], k1 B", "this bracket closes nothing; expected ')'", "]"),
        ("rep from * to end", "nothing says where this repeat begins; expected a * before it", "rep"),
        ("*; rep from * to end", "there is nothing to repeat here", "rep"),
        ("*k1 A; rep from *", f"the repeat does not say how often; {OFTEN}", "rep from *"),
        ("k3, k6", "nothing says the colour here; expected one of the key", "k3"),
        ("4 times A", "nothing says what is worked so often; expected a bracket", "4 times"),
        ("k12345678 A", "12345678… is more than anybody knits; expected a count", "12345678"),
        ("[[k9999 A] 9999 times] 9999 times", "this comes to more than 100,000 stitches", "k9999 A"),
        ("[[] 999999 times] 9 times", "there is nothing to repeat here", "["),
        ("[with A] 3 times, [m1 A] to end", None, None),
        ("(" * 40, "the brackets go too deep to follow", "("),
    ],
)  # fmt: skip
def test_what_cannot_be_followed(text: str, message: str | None, word: str | None) -> None:
    colours = COLOURS if message else Colours("AB", {})
    with pytest.raises(NotUnderstood) as caught:
        work_out(parse_row(text, colours).items, 12)
    if message is None:
        assert caught.value.message == "this repeat works no stitch, so it has no end"
    else:
        assert (caught.value.message, text[caught.value.start : caught.value.end]) == (message, word)


@settings(max_examples=400, deadline=None)
@given(st.one_of(st.text(max_size=30), st.lists(st.sampled_from(PIECES), max_size=14).map(" ".join)))
def test_any_text_is_followed_or_refused(text: str) -> None:
    try:
        made = work_out(parse_row(text, COLOURS).items, 12)
    except NotUnderstood as refused:
        fault = refused
    else:
        assert set(made.symbols) <= COLOURS.symbols
        assert len(made.symbols) == len(made.kinds)
        return
    assert 0 <= fault.start <= fault.end <= len(text)
    assert fault.message


@pytest.mark.parametrize("words", ["inc 3 sts; no stitches. (0 sts)", "dec 2 sts. no stitches", "no stitches. (0 sts)"])
def test_a_row_without_stitches_works_none(words: str) -> None:
    spoken = parse_row(words, COLOURS)
    assert (spoken.items, spoken.stated) == ((), 0)
