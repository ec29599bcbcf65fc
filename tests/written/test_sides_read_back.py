"""The words of an opening's two sides, read back and compared side by side, in the forms that printed patterns have.

The wordings are common practice: "join a second ball", "work both sides at once with separate balls", "place 16 sts on
a holder" stand in patterns of every decade. What they mean in stitches is worked out by hand beside each list.
"""

import pytest
from test_garment_words import chart, lines

from lintarsia.chart import Chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.terms import Terms
from lintarsia.written import read_written
from lintarsia.written.style import Style

ROWS = ["A" * 12, "A" * 12, "AABA...AAABA", "AABA...AAABA", "AAB.....ABAA"]  # left 4, right 5, then 3 and 4
SHAPED = "shaping: {5: {neck-left: -1, neck-right: -1}}\ndivide: {3: {by: hold, sides: right-first}}\n"
OFF = SHAPED.replace("hold", "bind-off")


def told(c: Chart) -> list[str]:
    work = Work(c)
    checks = [check for name in catalogue.NAMES if name.startswith("words/") and (check := catalogue.load(name).check)]
    return [f"{finding.key}: {finding.message}" for check in checks for finding in check(work, NoOptions())]


def page(words: list[str], extra: str = SHAPED) -> Chart:
    return chart(ROWS, extra + "written: |\n" + "\n".join(f"  {line}" for line in words))


def keyed(words: dict[str, str], extra: str = SHAPED) -> Chart:
    return chart(ROWS, extra + "written:\n" + "\n".join(f'  "{key}": "{line}"' for key, line in words.items()))


@pytest.mark.parametrize("sides", ["together", "right-first", "left-first"])
@pytest.mark.parametrize("by", ["hold", "bind-off"])
@pytest.mark.parametrize("first", ["RS", "WS"])
def test_our_own_words_agree_with_their_chart(sides: str, by: str, first: str) -> None:
    extra = SHAPED.replace("right-first", sides).replace("hold", by) + f"first-row: {first}\n"
    for style in (Style(merge=False), Style(), Style(terms=Terms.BRITISH)):
        own = page(lines(chart(ROWS, extra), style=style), extra)
        assert told(own) == []
        places = {(row.row, row.half) for row in read_written(own)}
        assert places == ({(r, "") for r in range(1, 6)} if sides == "together" else _in_turn())


def _in_turn() -> set[tuple[int, str]]:
    return {(1, ""), (2, "")} | {(row, half) for row in (3, 4, 5) for half in ("left", "right")}


@pytest.mark.parametrize(
    ("at", "slip", "message"),
    [
        (2, ("k1 A", "k1 B"), "stitch-differs: row 3 (RS), right neck side: stitch 1 is A (Shore) in the chart"),
        (3, ("p3 A", "p4 A"), "stitch-differs: row 4 (WS), right neck side: stitch 2 is B (Pebble) in the chart"),
        (6, ("p2 A", "p3 A"), "stitch-differs: row 4 (WS), left neck side: stitch 10 is B (Pebble) in the chart"),
        (
            6,
            ("(4 sts)", "(5 sts)"),
            "wrong-count: row 4 (WS), left neck side is said to have 5 stitches; the chart has 4",
        ),
    ],
)
def test_a_slip_in_one_side_is_told_of_that_side(at: int, slip: tuple[str, str], message: str) -> None:
    own = lines(chart(ROWS, SHAPED))
    own[at] = own[at].replace(*slip, 1)
    (found,) = told(page(own))
    assert found.startswith(message), found


def test_a_side_under_a_key_of_its_own() -> None:
    words = {
        "1": "k12 A",
        "2": "p12 A",
        "right 3": "k1 A, k1 B, k3 A",
        "left 3": "place next 3 sts on a holder; k1 A, k1 B, k2 A",
    }
    words |= {"right 4": "p3 A, p1 B, p1 A", "Left neck side, row 4 (WS)": "p2 A, p1 B, p1 A"}
    words |= {"right 5": "k2 A, k1 B, k2tog A", "left 5": "ssk B, k2 A"}
    assert told(keyed(words)) == []


def test_a_side_that_is_left_out_and_one_that_is_not_there() -> None:
    words = {"1-2": "A to end", "left 2": "p4 A", "right 3": "k1 A, k1 B, k3 A", "right 4": "p3 A, p1 B, p1 A"}
    words |= {"right 5": "k2 A, k1 B, k2tog A", "left 3": "place next 3 sts on a holder; k1 A, k1 B, k2 A"}
    assert told(keyed(words)) == [
        "not-written: the left side of rows 4–5 is in the chart and not written",
        "not-charted: the left side of row 2 is written; the chart has no such side in that row",
    ]


HEADED = """\
Row 1 (RS): k12 A.
Row 2 (WS): p12 A.
Right neck side
Row 3 (RS): k1 A, k1 B, k3 A. (5 sts)
Row 4 (WS): p3 A, p1 B, p1 A.
Row 5 (RS): k2 A, k1 B, k2tog A.
Left neck side:
Row 3 (RS): With RS facing, place centre 3 sts on a holder, rejoin A, k1 A, k1 B, k2 A.
Row 4 (WS): p2 A, p1 B, p1 A.
Row 5 (RS): ssk B, k2 A."""


def test_rows_under_the_heading_of_their_side() -> None:
    assert told(page(HEADED.splitlines())) == []
    swapped = HEADED.replace("Row 4 (WS): p2 A, p1 B", "Row 4 (WS): p1 A, p2 B")
    assert [found.split(":")[0] for found in told(page(swapped.splitlines()))] == ["stitch-differs"]


def test_a_front_is_named_as_it_is_worn() -> None:
    """Its left is at the right of the chart."""
    worn = HEADED.replace("Right neck side", "Left front").replace("Left neck side", "Right front")
    assert told(page(worn.splitlines())) == []


# Row 3 (RS) of sides in turn, second side: 3 stitches come off between the sides, then k1 A, k1 B, k2 A.
SECOND_HELD = [
    "place 3 sts on a holder; k1 A, k1 B, k2 A. (4 sts)",
    "Place centre 3 sts on holder, join a second ball, k1 A, k1 B, k2 A.",
    "slip next 3 sts onto a stitch holder, rejoin yarn at neck edge, k1 A, k1 B, k2 A",
    "Sl center 3 sts to a holder; attach a new ball of A and k1 A, k1 B, k2 A",
    "With RS facing, leave 3 sts on a spare needle, rejoin A to rem sts, k1 A, k1 B, k2 A.",
    "put the next 3 sts on waste yarn. With a second ball of A, k1 A, k1 B, k2 A. Cont on these sts only.",
    "transfer first 3 sts to a holder, join a second ball of yarn, k1 A, k1 B, k to end A",
    "place 3 sts on a holder, join a 2nd ball of A, k1 A, k1 B, k2 A. (4 sts) Leave rem 4 sts on a holder.",
    "slip 3 sts to holder; k1 A, k1 B, k2 A. (4 sts) Bind off all sts.",
]
SECOND_OFF = [
    "BO 3 sts, k1 A, k1 B, k2 A. (4 sts)",
    "bind off centre 3 sts, k1 A, k1 B, k2 A",
    "rejoin A, BO next 3 sts at neck edge, k1 A, k1 B, k2 A.",
    "With RS facing, join yarn and cast off 3 sts, k1 A, k1 B, k2 A",
    "Join a second ball of A, bind off 3 sts at beg, k1 A, k1 B, k to end A.",
    "cast off middle 3 sts loosely, k1 A, k1 B, k2 A. Work each side separately.",
    "BO 3 sts, k1 A, k1 B, k2 A. Work both sides at once with separate balls.",
    "bind off 3 neck sts, k1 A, k1 B, k2 A",
]


@pytest.mark.parametrize("words", SECOND_HELD)
def test_the_usual_forms_of_a_side_that_goes_on_behind_a_holder(words: str) -> None:
    assert (
        told(keyed({"1-2": "A to end", "right 3-5": "work in patt", "left 3": words, "left 4-5": "work in patt"})) == []
    )
    assert "stitch-differs" in "".join(
        told(keyed({"1-5": "work in patt", "left 3": words.replace("k1 A, k1 B", "k1 B, k1 A")}))
    )


@pytest.mark.parametrize("words", SECOND_OFF)
def test_the_usual_forms_of_a_side_that_goes_on_behind_a_bind_off(words: str) -> None:
    assert told(keyed({"1-5": "work in patt", "left 3": words}, OFF)) == []
    one_more = words.replace("k1 A, k1 B", "k1 A, k2 B")
    assert len(told(keyed({"1-5": "work in patt", "left 3": one_more}, OFF))) == 1


BOTH = [
    "k1 A, k1 B, k3 A; join a second ball; BO 3 sts; k1 A, k1 B, k2 A. (9 sts)",
    "k1 A, k1 B, k3 A, join a second ball of A, bind off centre 3 sts, k1 A, k1 B, k2 A. "
    "Working both sides at the same time with separate balls of yarn.",
    "Right side of neck: k1 A, k1 B, k3 A; left side of neck: join a second ball and BO 3 sts, k1 A, k1 B, k2 A.",
    "k1 A, k1 B, k3 A, join new ball and cast off next 3 sts, k1 A, k1 B, k2 A. Work both sides at once.",
]


@pytest.mark.parametrize("words", BOTH)
def test_both_sides_of_a_row_in_one_line(words: str) -> None:
    extra = OFF.replace("right-first", "together")
    assert told(keyed({"1-2, 4-5": "work in patt", "3": words}, extra)) == []
    assert len(told(keyed({"1-2, 4-5": "work in patt", "3": words.replace("k3 A", "k4 A", 1)}, extra))) == 1


TOP = [
    "BO 4 sts at beg, fasten off",
    "BO rem 4 sts",
    "Bind off all sts.",
    "cast off remaining sts",
    "Cast off these 4 sts.",
    "BO all rem sts; break yarn",
]


@pytest.mark.parametrize("words", TOP)
def test_a_side_that_comes_off_whole(words: str) -> None:
    rows = [*ROWS, "AAB........."]
    extra = SHAPED.replace("{5", "{6: {right: {bind-off: 4}}, 5") + "first-row: WS\n"
    text = "written:\n  1-5: work in patt\n  left 6: k1 B, k2 A\n  right 6: "
    assert told(chart(rows, extra + text + f'"{words}"')) == []
    assert told(chart(rows, extra + text + f'"{words}, k1 A"')) != []
    assert lines(chart(rows, extra))[6] == "Right neck side, row 6 (RS): BO rem 4 sts; fasten off. (0 sts)"


ARMHOLES = (["A" * 12, "A" * 9 + "...", "...AAAAAA..."], "first-row: WS\nshaping: {2: {right: -3}, 3: {left: -3}}\n")


def test_the_stitch_that_binding_off_leaves_is_counted_apart_in_all_rows_or_in_none() -> None:
    """Some patterns count it in what follows and others do not, but one pattern does as it does throughout."""
    rows, extra = ARMHOLES
    for second, third, expected in [("k9", "p6", 0), ("k8", "p5", 0), ("k8", "p6", 1), ("k9", "p5", 1)]:
        text = f"written: {{1: p12 A, 2: 'BO 3 sts, {second} A', 3: 'BO 3 sts, {third} A'}}"
        assert len(told(chart(rows, extra + text))) == expected, (second, third)


def test_tension_is_what_britain_says() -> None:
    from lintarsia.written.answer import rows_in_words

    c = chart(ROWS, SHAPED)
    assert "Tension: 22 sts" in rows_in_words(c, terms=Terms.BRITISH)
    assert "Gauge: 22 sts" in rows_in_words(c)
