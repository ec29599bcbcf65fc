"""The text report, whole: as a page of letters, in colour, in ASCII."""

import re
from dataclasses import replace

import pytest

from lintarsia.reporting import REPORTERS
from lintarsia.reporting.screen import PLAIN, Screen, look_at_screen
from lintarsia.result import Level, Picture, Region, Report, Result
from rendering import rendered

FILE = "charts/heron.chart.yaml"
COLOUR = Screen(80, colour=True, true_colour=True)
SHADES = {"B": "#27406b", "W": "#efe9dc"}
PICTURE = Picture(
    rows=("BBBBBBBB", "BBBBBBBB", "BBBWWBBB", "BBWWWWB", "BBBWWBBB", "BBB..BBB", "BBB..BBB"),
    shades=SHADES,
    sides=("RS", "WS", "RS", "WS", "RS", "WS", "RS"),
    names={"B": "Dusk blue", "W": "Bone"},
)
SHORT = Result(
    rule="grid/stitch-count",
    key="row-too-short",
    level=Level.ERROR,
    message="row 4 has 7 stitches; row 3 has 8 and no shaping is declared",
    file=FILE,
    region=Region(14, 3, 14, 10),
    row=4,
    stitches=(1, 7),
    remedy="write the missing stitch, or declare the decrease under `shaping` so that the next knitter finds it too",
)
SPECK = Result(
    rule="area/single-stitch",
    key="alone",
    level=Level.WARNING,
    message="row 3 has a single W",
    file=FILE,
    region=Region(15, 5, 15, 6),
    row=3,
    stitches=(4, 4),
)


def report(*results: Result, picture: Picture = PICTURE) -> Report:
    return Report(charts=2, results=results, pictures={FILE: picture})


def bare(text: str) -> str:
    """Without colour codes."""
    return re.sub(r"\x1b\[[0-9;]*m", "", text)


def test_one_result_whole() -> None:
    assert rendered(report(SHORT), PLAIN) == (
        """\
charts/heron.chart.yaml:14:3
■ error  row 4 (WS), stitches 1–7                              grid/stitch-count
  row 4 has 7 stitches; row 3 has 8 and no shaping is declared

      6 BBB..BBB
      5 BBBWWBBB
 ▸    4  BBWWWWB
         ^^^^^^^
      3 BBBWWBBB
      2 BBBBBBBB

  mend  write the missing stitch, or declare the decrease under `shaping` so
        that the next knitter finds it too

2 charts: 1 error
"""
    )


def test_in_colour_the_faulty_row_is_a_lower_half_and_the_carets_stand_beneath_it() -> None:
    text = rendered(report(SHORT), COLOUR)
    lines = text.splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith(" \x1b[1m▸"))
    # row 5 above, row 4 below: the first cell is row 5's B with nothing beneath it, since row 4 lacks a stitch there
    assert lines[at].startswith(" \x1b[1m▸    4 \x1b[0m\x1b[0;38;2;39;64;107m▀\x1b[0;38;2;39;64;107;48;2;39;64;107m▀▀")
    assert bare(lines[at + 1]) == "         ^^^^^^^"
    assert [bare(line)[:8] for line in lines[at - 1 : at + 4]] == [
        "      6 ",
        " ▸    4 ",
        "        ",
        "      2 ",
        "      1 ",
    ]
    assert bare(lines[at + 4]) == "        █ B Dusk blue  █ W Bone"
    assert not re.search(r"[BW]{3}", bare(text))


def test_like_results_read_as_one() -> None:
    specks = [replace(SPECK, row=row, stitches=(stitch, stitch)) for row in (3, 4, 5) for stitch in (2, 4)]
    lines = rendered(report(*specks), PLAIN).splitlines()
    assert lines[1] == "▲ warning  6 places in 3 rows" + "area/single-stitch".rjust(80 - 29)
    assert "  all   rows 3–5: stitches 2, 4" in lines
    assert sum("single W" in line for line in lines) == 1
    assert lines[-1] == "2 charts: 6 warnings (nothing that blocks)"


def test_hundreds_of_scattered_places_stay_short() -> None:
    specks = [replace(SPECK, row=row, stitches=(row % 7 + 1,) * 2) for row in range(1, 400)]
    lines = rendered(report(*specks), PLAIN).splitlines()
    assert len(lines) < 20
    shown = sum(line.count("stitch ") for line in lines if line.startswith(("  all", "        ")) and "stitch " in line)
    assert f"        and {399 - shown} more; --format json lists them all" in lines
    assert max(map(len, lines)) <= 80


def test_results_without_a_row_tell_each_message() -> None:
    unused = replace(SPECK, rule="colour/unused", row=None, stitches=None)
    results = [
        replace(unused, message=f"no stitch uses {symbol}", region=Region(i, 1, i, 2))
        for i, symbol in enumerate("ABC", 1)
    ]
    lines = rendered(report(*results), PLAIN).splitlines()
    assert lines[:5] == [
        f"{FILE}:1:1",
        "▲ warning  3 places" + "colour/unused".rjust(80 - 19),
        "  no stitch uses A",
        "  also  no stitch uses B",
        "        no stitch uses C",
    ]


@pytest.mark.parametrize(("stitches", "seen"), [((1, 1), "…"), ((200, 200), "…"), ((100, 104), "……"), ((1, 200), "…")])
@pytest.mark.parametrize("screen", [PLAIN, COLOUR, Screen(40)])
def test_a_wide_chart_is_cut_to_the_fault(stitches: tuple[int, int], seen: str, screen: Screen) -> None:
    row = "".join("BW"[i // 5 % 2] for i in range(200))
    wide = Picture((row,) * 9, SHADES, ("RS",) * 9)
    text = bare(rendered(report(replace(SHORT, row=5, stitches=stitches), picture=wide), screen))
    lines = text.splitlines()
    assert max(map(len, lines)) <= screen.width
    at = next(i for i, line in enumerate(lines) if line.startswith(" ▸"))
    assert lines[at].count("…") == len(seen)
    carets = lines[at + 1]
    width = min(stitches[1] - stitches[0] + 1, screen.width - 10)
    assert carets.strip() == "^" * width
    if screen is not COLOUR and width < screen.width - 10:
        under = lines[at][carets.index("^") : carets.index("^") + width]
        assert under == row[200 - stitches[1] : 200 - stitches[0] + 1]


def test_a_symbol_without_a_colour_is_a_question_mark_in_colour() -> None:
    odd = replace(PICTURE, rows=(*PICTURE.rows[:3], "BBWxWWB", *PICTURE.rows[4:]))
    assert bare(rendered(report(replace(SHORT, stitches=(4, 4)), picture=odd), COLOUR)).count("?") == 1


def test_rounds_have_no_sides() -> None:
    tube = replace(PICTURE, round=True)
    assert "■ error  round 4, stitches 1–7 " in rendered(report(SHORT, picture=tube), PLAIN)


def test_a_file_that_could_not_be_read_has_no_picture() -> None:
    result = replace(SHORT, rule="file/unreadable", row=None, stitches=None, message="the file is empty")
    lines = rendered(Report(charts=1, results=(result,)), PLAIN).splitlines()
    assert lines[1:3] == ["■ error" + "file/unreadable".rjust(80 - 7), "  the file is empty"]


def test_ascii_where_there_is_no_more() -> None:
    text = rendered(report(SHORT, replace(SPECK, message="a – b × c … d")), replace(PLAIN, unicode=False))
    assert text.isascii()
    assert "# error  row 4 (WS), stitches 1-7" in text
    assert "! warning" in text


def test_names_cannot_steer_the_terminal() -> None:
    result = replace(SHORT, file="a\x1b[2J\n.chart.yaml", message="title \x07‮")
    text = rendered(report(result), PLAIN)
    assert "a\\x1b[2J\\n.chart.yaml:14:3\n" in text
    assert "title \\x07\\u202e\n" in text


@pytest.mark.parametrize(
    ("results", "told"),
    [
        ((), "2 charts: nothing to mend\n"),
        ((replace(SPECK, suppressed=True),), "2 charts: nothing to mend; 1 suppressed\n"),
        ((SHORT, replace(SPECK, suppressed=True)), "2 charts: 1 error; 1 suppressed\n"),
        ((SHORT, SPECK, replace(SPECK, level=Level.NOTE)), "2 charts: 1 error, 1 warning, 1 note\n"),
    ],
)
def test_the_last_line_sums_up(results: tuple[Result, ...], told: str) -> None:
    assert rendered(report(*results), PLAIN).splitlines(keepends=True)[-1] == told


def test_no_charts_no_words() -> None:
    assert rendered(Report(charts=0, results=()), PLAIN) == ""


@pytest.mark.parametrize(
    ("said", "environ", "expected"),
    [
        ({}, {"TERM": "xterm-256color"}, Screen(80, True, False)),
        ({}, {"TERM": "xterm-256color", "COLORTERM": "truecolor"}, Screen(80, True, True)),
        ({}, {"TERM": "xterm-direct"}, Screen(80, True, True)),
        ({}, {"COLORTERM": "truecolor", "NO_COLOR": "1"}, Screen(80)),
        ({}, {"COLORTERM": "truecolor", "NO_COLOR": ""}, Screen(80, True, True)),
        ({}, {"TERM": "dumb", "COLORTERM": "truecolor"}, Screen(80)),
        ({"tty": False}, {"COLORTERM": "truecolor"}, Screen(80)),
        # force-color.org: present and not empty, whatever the value; NO_COLOR is the stronger of the two
        ({"tty": False}, {"FORCE_COLOR": "1"}, Screen(80, True, False)),
        ({"tty": False}, {"FORCE_COLOR": "0", "COLORTERM": "truecolor"}, Screen(80, True, True)),
        ({"tty": False}, {"FORCE_COLOR": "", "COLORTERM": "truecolor"}, Screen(80)),
        ({"tty": False}, {"FORCE_COLOR": "1", "NO_COLOR": "1"}, Screen(80)),
        ({}, {"FORCE_COLOR": "1", "TERM": "dumb"}, Screen(80, True, False)),
        ({"when": "never"}, {"FORCE_COLOR": "1"}, Screen(80)),
        ({"tty": False, "when": "always"}, {"NO_COLOR": "1"}, Screen(80, True, True)),
        ({"when": "never"}, {"COLORTERM": "truecolor"}, Screen(80)),
        ({"encoding": "ISO-8859-1"}, {"COLORTERM": "truecolor"}, Screen(80, True, True, unicode=False)),
        ({"width": 200}, {}, Screen(80, True)),
        ({"width": 20}, {}, Screen(40, True)),
    ],
)
def test_what_a_screen_can_show(said: dict[str, object], environ: dict[str, str], expected: Screen) -> None:
    usual: dict[str, object] = {"tty": True, "encoding": "utf-8", "width": 80, "when": "auto"}
    assert look_at_screen(**(usual | said), environ=environ) == expected  # type: ignore[arg-type]


def test_every_format_renders() -> None:
    for name in REPORTERS:
        assert rendered(report(SHORT), PLAIN, name)
