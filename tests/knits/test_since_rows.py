"""What has changed of a knit since it was knitted, in words of the piece's own rows: two states as values."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from lintarsia.chart.measure import Length
from lintarsia.engine.knitted import knit_work
from lintarsia.knits.model import KnitLog
from lintarsia.knits.revisionmarks import same_stitches
from lintarsia.knits.since import since_words
from lintarsia.knits.work import KnitWork
from lintarsia.settings import Settings

ROWS = ["O" * (2 + k % 5) + "R" * (3 + k % 3) + "O" * (15 - k % 5 - k % 3) for k in range(20)]  # row 1 first
SLEEVES = "title: Fox\nsizes: [small, large]\npieces:\n  front: {chart: a.chart.yaml}\n"
HOOD = "  hood: {chart: b.chart.yaml, times: {small: 1, large: 0}}\n"


def chart(rows: Sequence[str], more: str = "") -> str:
    return (
        "lintarsia: 1\ntitle: Fox\ngauge: {stitches: 20, rows: 28, over: 10 cm}\n"
        'colours:\n  O: {name: Oat, shade: "#f0e7d4"}\n  R: {name: Rust, shade: "#a3502c"}\n'
        f"{more}chart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    )


def knit(
    folder: Path, rows: Sequence[str] = ROWS, more: str = "", pattern: str = SLEEVES, size: str = "small"
) -> KnitWork:
    folder.mkdir()
    (folder / "a.chart.yaml").write_text(chart(rows, more), encoding="utf-8")
    (folder / "b.chart.yaml").write_text(chart(ROWS), encoding="utf-8")
    (folder / "x.pattern.yaml").write_text(f"lintarsia-pattern: 1\n{pattern}", encoding="utf-8")
    log = KnitLog(str(folder / "x.knit.yaml"), "x.pattern.yaml", size=size)
    return knit_work(log, Settings(root=str(folder)))


def with_rows(**changed: str) -> list[str]:
    """The rows, those of some numbers (`row_4`) others."""
    new = {int(name[4:]): row for name, row in changed.items()}
    return [new.get(number, row) for number, row in enumerate(ROWS, 1)]


OTHER = with_rows(row_4="R" * 20)


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        (ROWS, ""),
        (OTHER, "row 4 is another"),
        (with_rows(row_4="R" * 20, row_5="RO" * 10), "rows 4–5 are others"),
        (with_rows(row_1="R" * 20, row_20="RO" * 10), "row 1 is another; row 20 is another"),
        ([*ROWS[:9], "RO" * 10, *ROWS[9:]], "row 10 is new"),
        ([*ROWS[:9], "RO" * 10, "OR" * 10, *ROWS[9:]], "rows 10–11 are new"),
        ([*ROWS[:14], *ROWS[15:]], "row 15 of before is gone"),
        ([*ROWS[:14], *ROWS[16:]], "rows 15–16 of before are gone"),
    ],
)
def test_rows(tmp_path: Path, rows: list[str], words: str) -> None:
    assert since_words(knit(tmp_path / "then"), knit(tmp_path / "now", rows)) == words


@pytest.mark.parametrize(
    ("patches", "words"),
    [
        ("{colour: R, row: 7, stitches: [1, 2]}", "row 7 has other duplicate stitch"),
        ("{colour: R, row: 7, stitches: [1, 2]}, {colour: R, row: 8, stitches: [5, 5]}",
         "rows 7–8 have other duplicate stitch"),
        ("{colour: R, row: 3, stitches: [3, 4]}", ""),
    ],
)  # fmt: skip
def test_duplicate_stitch(tmp_path: Path, patches: str, words: str) -> None:
    same = "duplicate-stitch: [{colour: R, row: 3, stitches: [3, 4]}]\n"
    more = same if not words else same.replace("[{", f"[{patches}, {{")
    then, now = knit(tmp_path / "then", more=same), knit(tmp_path / "now", more=more)
    assert since_words(then, now) == words
    assert since_words(now, then) == words


def test_in_rounds_rounds_are_told(tmp_path: Path) -> None:
    then = knit(tmp_path / "then", more="worked: round\n")
    assert since_words(then, knit(tmp_path / "now", OTHER, "worked: round\n")) == "round 4 is another"


def test_of_several_pieces_each_is_named(tmp_path: Path) -> None:
    then, now = knit(tmp_path / "then", pattern=SLEEVES + HOOD), knit(tmp_path / "now", OTHER, pattern=SLEEVES + HOOD)
    assert since_words(then, now) == "front: row 4 is another"


def test_a_piece_that_has_come_or_gone(tmp_path: Path) -> None:
    one, two = knit(tmp_path / "one", OTHER), knit(tmp_path / "two", pattern=SLEEVES + HOOD)
    assert since_words(one, two) == "front: row 4 is another; hood is new"
    assert since_words(two, one) == "front: row 4 is another; hood is gone"


def test_a_piece_that_her_size_never_had_is_neither_new_nor_gone(tmp_path: Path) -> None:
    """The large one has no hood."""
    one = knit(tmp_path / "one", size="large")
    assert since_words(one, knit(tmp_path / "two", pattern=SLEEVES + HOOD, size="large")) == ""


def test_six_stretches_are_told(tmp_path: Path) -> None:
    rows = [row[::-1] if number in (1, 4, 7, 10, 13, 16) else row for number, row in enumerate(ROWS, 1)]
    then = knit(tmp_path / "then")
    told = "; ".join(f"row {number} is another" for number in (1, 4, 7, 10, 13, 16))
    assert since_words(then, knit(tmp_path / "six", rows)) == told
    assert since_words(then, knit(tmp_path / "seven", [*rows[:18], rows[18][::-1], rows[19]])) == f"{told}; and more"


def test_of_what_cannot_be_read_nothing_is_told(tmp_path: Path) -> None:
    lost = knit_work(KnitLog(str(tmp_path / "x.knit.yaml"), "none.pattern.yaml"), Settings(root=str(tmp_path)))
    now = knit(tmp_path / "now")
    assert since_words(lost, now) == since_words(now, lost) == ""
    assert since_words(now, knit(tmp_path / "no-such-size", OTHER, size="huge")) == ""


@pytest.mark.parametrize(
    ("more", "pattern", "same"),
    [
        ("", SLEEVES, True),
        ("wearer: child\n", SLEEVES, True),
        ("worked: round\n", SLEEVES, False),
        ("first-row: WS\n", SLEEVES, False),
        ("duplicate-stitch: [{colour: R, row: 3, stitches: [3, 4]}]\n", SLEEVES, False),
        ("", SLEEVES.replace("chart.yaml}", "chart.yaml, times: 2}"), False),
        ("", SLEEVES.replace("sizes: [small", "sizes: [tiny"), False),
        ("", SLEEVES + HOOD, False),
    ],
)
def test_whether_she_has_knitted_every_stitch_of_now(tmp_path: Path, more: str, pattern: str, same: bool) -> None:
    then, now = knit(tmp_path / "then"), knit(tmp_path / "now", more=more, pattern=pattern)
    assert then.knitted is not None
    assert now.knitted is not None
    assert same_stitches(then.knitted, now.knitted, "small") is same


def test_another_row_is_another_stitch(tmp_path: Path) -> None:
    then, now = knit(tmp_path / "then"), knit(tmp_path / "now", OTHER)
    assert then.knitted is not None
    assert now.knitted is not None
    assert not same_stitches(then.knitted, now.knitted, "small")


def test_a_measured_loop_is_no_other_stitch(tmp_path: Path) -> None:
    then = knit(tmp_path / "then")
    now = tmp_path / "now"
    work = knit(now)
    text = (now / "a.chart.yaml").read_text("utf-8")
    (now / "a.chart.yaml").write_text(text.replace("over: 10 cm", "over: 10 cm, loop: 19 mm"), encoding="utf-8")
    again = knit_work(work.log, Settings(root=str(now)))
    assert then.knitted is not None
    assert again.knitted is not None
    assert again.main is not None
    assert again.main.gauge.loop == Length(19, "mm")
    assert same_stitches(then.knitted, again.knitted, "small")
