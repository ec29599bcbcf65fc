"""The rows around a fault, line by line with their colour sequences: in letters, quiet ones too, and as half blocks.

Colours are those of the terminal's 24-bit sequences (ISO 8613-6: 38;2 and 48;2 with red, green and blue).
"""

import re
from dataclasses import replace

import pytest

from lintarsia.reporting.junit import pieces
from lintarsia.reporting.rowpicture import draw_rows, half_blocks, legend
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.reporting.text import place_words
from lintarsia.result import Fixed, Level, Picture, Region, Report, Result
from rendering import rendered

SHADES = {"A": "#27406b", "B": "#efe9dc"}
PICTURE = Picture(
    ("AABBB", "ABBBB", "AAAAB", "AB.AA", "BBBBB", "AAAAA", "AQAAB"), SHADES, ("RS", "WS", "RS", "WS"),
    {"A": "Sea", "B": "Bone"},
)  # fmt: skip
FAULT = Result("a/b", "k", Level.WARNING, "odd", "a.chart.yaml", Region(9, 1, 9, 2), 4, (2, 3))
QUIET, COLOUR, ASCII = Screen(40, True, False), Screen(40, True, True), Screen(40, unicode=False)
NAMES = {"0": "</>", "1": "<b>", "2": "<q>", "1;33": "<w>"}


def drawn(screen: Screen, row: int | None = 4, stitches: tuple[int, int] | None = (2, 3)) -> list[str]:
    """`<b>` comes forward, `<q>` steps back, `<w>` is a warning's; `[A/B]` is a shade over another, or `[A/]`, none."""

    def named(found: re.Match[str]) -> str:
        codes = found[1].replace("239;233;220", "B").replace("39;64;107", "A").removeprefix("0;")
        shades = re.fullmatch(r"(?:38;2;(\w))?;?(?:48;2;(\w))?", codes)
        return NAMES.get(found[1]) or (f"[{shades[1] or ''}/{shades[2] or ''}]" if shades else found[1])

    lines = draw_rows(replace(FAULT, row=row, stitches=stitches), PICTURE, screen)
    return [re.sub("\x1b\\[(.*?)m", named, line) for line in lines]


ABOVE, BELOW = ["      6 AAAAA", "      5 BBBBB"], ["      3 AAAAB", "      2 ABBBB"]


@pytest.mark.parametrize(
    ("row", "stitches", "lines"),
    [
        (4, (2, 3), [*ABOVE, " ▸    4 AB.AA", "          ^^", *BELOW]),
        (4, (1, 5), [*ABOVE, " ▸    4 AB.AA", "        ^^^^^", *BELOW]),
        (4, (5, 5), [*ABOVE, " ▸    4 AB.AA", "        ^", *BELOW]),
        (4, None, [*ABOVE, " ▸    4 AB.AA", *BELOW]),
        (1, (2, 3), [*BELOW, " ▸    1 AABBB", "          ^^"]),
        (7, (2, 3), [" ▸    7 AQAAB", "          ^^", *ABOVE]),
        (8, (2, 3), []),
        (0, (2, 3), []),
        (None, (2, 3), []),
    ],
)
def test_in_letters(row: int | None, stitches: tuple[int, int] | None, lines: list[str]) -> None:
    assert drawn(PLAIN, row, stitches) == lines
    assert drawn(ASCII, row, stitches) == [line.replace("▸", ">") for line in lines]


def test_rows_that_are_not_the_faults_own_step_back() -> None:
    assert drawn(QUIET) == [
        " <q>     6 </><q>AAAAA</>", " <q>     5 </><q>BBBBB</>", " <b>▸    4 </>AB.AA", "          <w>^^</>",
        " <q>     3 </><q>AAAAB</>", " <q>     2 </><q>ABBBB</>",
    ]  # fmt: skip


LEGEND = "        [A/]█</> <q>A Sea</>  [B/]█</> <q>B Bone</>"
ROWS_56 = " <q>     5 </>[A/B]▀▀▀▀▀</>"
ROWS_34 = " <q>     3 </>[A/A]▀[B/A]▀[A/]▄[A/A]▀[A/B]▀</>"


@pytest.mark.parametrize(
    ("row", "lines"),
    [
        (4, [" <q>     6 </>[A/A]▀[/A]?[A/A]▀▀[B/A]▀</>", " <b>▸    4 </>[B/A]▀[B/B]▀[B/]▀[B/A]▀▀</>",
             "          <w>^^</>", " <q>     2 </>[A/A]▀[A/B]▀▀▀[B/B]▀</>", " <q>     1 </>[A/]▀▀[B/]▀▀▀</>", LEGEND]),
        (1, [ROWS_56, ROWS_34, " <b>▸    1 </>[A/A]▀[B/A]▀[B/B]▀▀▀</>", "          <w>^^</>", LEGEND]),
        (7, [" <b>▸    7 </>[A/]▄</>?[A/]▄▄[B/]▄</>", "          <w>^^</>", ROWS_56, ROWS_34, LEGEND]),
    ],
)  # fmt: skip
def test_two_rows_to_a_line_in_the_charts_own_colours(row: int, lines: list[str]) -> None:
    assert drawn(COLOUR, row) == lines


def test_a_legend_says_only_what_is_seen() -> None:
    one = replace(PICTURE, rows=("AAAAA", "AAAAA", *["BBBBB"] * 9))
    far = draw_rows(replace(FAULT, row=11), one, COLOUR)[-1]
    assert ("Sea" in far, "Bone" in far) == (False, True)
    near = draw_rows(replace(FAULT, row=6), one, COLOUR)[-1]
    assert ("Sea" in near, "Bone" in near) == (True, True)
    assert legend(SHADES, {}, 9, PLAIN).count("█") == 1
    assert legend(SHADES, {}, 10, PLAIN).count("█") == 2
    assert "\u2588\x1b[0m A Sea  " in legend(SHADES, {"A": "Sea", "B": "x" * 40}, 80, PLAIN)
    assert legend(SHADES, {"B": "x" * 40}, 80, PLAIN).endswith("B " + "x" * 22)


def test_stitches_in_shades_of_their_own_below() -> None:
    assert half_blocks("A", "A", SHADES, {"A": "#010203"}) == "\x1b[0;38;2;39;64;107;48;2;1;2;3m▀\x1b[0m"
    assert half_blocks(". ", " .", SHADES) == "  "
    assert half_blocks("A.", "..", SHADES) == "\x1b[0;38;2;39;64;107m▀\x1b[0m "
    assert half_blocks("Q", "Q", SHADES) == "?"


WIDE = Picture(("A" * 20 + "B" * 80,) * 2, SHADES, ("RS", "WS"))


@pytest.mark.parametrize(
    ("stitches", "line", "caret"),
    [
        ((99, 100), " ▸    1  " + "A" * 20 + "B" * 10 + "…", " " * 9 + "^^"),
        ((80, 81), " ▸    1 …" + "A" * 15 + "B" * 15 + "…", " " * 23 + "^^"),
        ((1, 2), " ▸    1 …" + "B" * 30, " " * 37 + "^^"),
        ((1, 100), " ▸    1 …" + "B" * 30, " " * 9 + "^" * 30),
        (None, " ▸    1 …" + "B" * 30, None),
    ],
)
def test_of_a_wide_chart_the_part_around_the_fault_is_shown(
    stitches: tuple[int, int] | None, line: str, caret: str | None
) -> None:
    """Forty columns: eight for the number, one at either side for what goes on, thirty stitches."""
    lines = draw_rows(replace(FAULT, row=1, stitches=stitches), WIDE, Screen(40))
    assert lines[1:] == ([line] if caret is None else [line, caret])


@pytest.mark.parametrize(
    ("row", "stitches", "round", "words"),
    [
        (4, (2, 3), False, "row 4 (WS), stitches 2–3"),
        (1, (2, 2), False, "row 1 (RS), stitch 2"),
        (5, None, False, "row 5"),
        (0, None, False, "row 0"),
        (4, None, False, "row 4 (WS)"),
        (4, None, True, "round 4"),
        (None, (2, 3), False, ""),
    ],
)
def test_a_place_in_words(row: int | None, stitches: tuple[int, int] | None, round: bool, words: str) -> None:
    assert place_words(replace(FAULT, row=row, stitches=stitches), replace(PICTURE, round=round)) == words


def test_a_case_of_several_that_block_tells_the_first_and_how_many_there_are() -> None:
    grave = replace(FAULT, level=Level.ERROR, message='too "wide" & <odd>')
    for number, more in ((1, ""), (2, " (and 1 more)"), (1204, " (and 1,203 more)")):
        text = "".join(pieces(Report(1, (grave,) * number), PLAIN))
        message = f'too "wide" &amp; &lt;odd&gt;{more}'
        assert f"<failure message='{message}' type=\"a/b k\">" in text
        assert 'tests="2" failures="1" errors="0" skipped="0"' in text
    kept = replace(FAULT, suppressed=True, justification="an eye")
    text = "".join(pieces(Report(1, (kept, replace(FAULT, rule="c/d"))), PLAIN))
    assert '<skipped message="an eye"/></testcase>' in text
    assert "<system-out>a.chart.yaml:9:1: warning: odd</system-out>" in text
    assert 'tests="3" failures="0" errors="0" skipped="1"' in text


def test_what_was_mended_stands_between_the_results_and_the_sum() -> None:
    fixed = (Fixed("b.yaml", "c/d", "k", "take it out", 9, 3),)
    text = rendered(Report(1, (FAULT,), fixed=fixed), PLAIN)
    assert text.endswith("b.yaml:9  mended, row 3: take it out  c/d\n\n1 chart: 1 warning (nothing that blocks)\n")
    assert text.index("odd") < text.index("mended")


def test_of_like_results_of_which_one_has_no_row_each_says_its_own() -> None:
    alike = [replace(FAULT, row=None, stitches=None, message="first"), replace(FAULT, message="second"),
             replace(FAULT, row=None, stitches=None, message="third")]  # fmt: skip
    lines = [line.strip() for line in rendered(Report(1, tuple(alike)), PLAIN).splitlines()]
    assert "also  second" in lines
    assert lines[lines.index("also  second") + 1] == "third"
    assert not any(line.startswith("all ") for line in lines)
