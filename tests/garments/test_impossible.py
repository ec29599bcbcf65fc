"""Shapings that hands cannot work, planted in necks that they can: each is found, and in its own row.

What can be worked where is common practice: the yarn stands where a row, or a side's part of it, starts, so only there
are several stitches bound off; a side ends where the drawing ends it; a bind-off in mid row parts the work.
"""

import random
import re

import pytest
from necks import KINDS, ORDERS, Neck, neck

from folding import each
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work

RULES = ("grid/opening", "grid/parted-row", "grid/shaping-side", "grid/stitch-count")
LOTS = range(10)


def told(text: str) -> list[tuple[str, int | None]]:
    """The rules that speak of impossible shaping, and their rows."""
    reading = read_chart("neck.chart.yaml", text.encode())
    assert reading.chart is not None
    assert reading.problems == (), reading.problems
    work = Work(reading.chart)
    checks = [(name, catalogue.load(name)) for name in RULES]
    return [(name, finding.row) for name, rule in checks if rule.check for finding in rule.check(work, rule.options())]


def drawn(kind: str, order: str, lot: int) -> Neck:
    return neck(kind, order, random.Random(f"{kind} {order} {lot} impossible"))


CASES = [(kind, order, lot) for kind in KINDS for order in ORDERS for lot in LOTS]


@each("kind, order, lot", CASES, quickly=5)
def test_what_can_be_knitted_passes(kind: str, order: str, lot: int) -> None:
    assert told(drawn(kind, order, lot).text) == []


@pytest.mark.parametrize("half", ["left", "right"])
@each("kind, order, lot", CASES, quickly=5)
def test_several_stitches_bound_off_where_a_side_ends(kind: str, order: str, lot: int, half: str) -> None:
    """Three at the outer edge of one side, in the first or second row above the parting, whichever ends there."""
    made = drawn(kind, order, lot)
    for row in (made.parted + 1, made.parted + 2):
        if row > len(made.rows) or len(made.half(row, half)) < 5:
            continue
        ends_there = (made.chart.side(row) == "RS") == (half == "left")  # leftward rows end at each side's left edge
        text = _shaped(_taken_off(made, row, half), made, row, half)
        found = [name for name, at in told(text) if at == row]
        assert ("grid/shaping-side" in found) == ends_there, (row, found)


@each("kind, order, lot", [case for case in CASES if case[0].startswith("round")])
def test_a_neck_that_nothing_divides(kind: str, order: str, lot: int) -> None:
    """Two stitches may be decreased in mid row; three or more come off there by binding off alone."""
    made = drawn(kind, order, lot)
    if _gap(made) < 3:
        return
    text = re.sub(r"divide: .*\n", f"shaping: {{{made.parted}: -{_gap(made)}}}\n", made.text, count=1)
    assert ("grid/opening", made.parted) in told(_without(text, made))


@each("kind, order, lot", [case for case in CASES if case[0].startswith("round")])
def test_a_parting_in_a_row_too_early_or_too_late_or_of_nothing(kind: str, order: str, lot: int) -> None:
    made = drawn(kind, order, lot)
    early = made.text.replace(f"divide: {{{made.parted}:", f"divide: {{{made.parted - 1}:")
    assert ("grid/opening", made.parted - 1) in told(early)
    late = made.text.replace(f"divide: {{{made.parted}:", f"divide: {{{made.parted + 1}:")
    assert [row for name, row in told(late) if name == "grid/opening"][:1] in ([made.parted], [made.parted + 1])
    nothing = re.sub(r"by: [a-z-]+", "by: nothing", made.text)
    assert ("grid/opening", made.parted) in told(nothing)


@each("kind, order, lot", CASES, quickly=5)
def test_a_side_that_is_a_stitch_short_of_what_is_said(kind: str, order: str, lot: int) -> None:
    """The drawing loses a stitch at an outer edge, and nothing says so."""
    made = drawn(kind, order, lot)
    row = made.parted + 1
    line = made.rows[row - 1]
    text = made.text.replace(_printed(made, row), _printed(made, row, line[:-1] + "."))
    assert any(name == "grid/stitch-count" and at in (row, row + 1) for name, at in told(text))


def _gap(made: Neck) -> int:
    return made.right[made.parted][0] - made.left[made.parted][1]


def _without(text: str, made: Neck) -> str:
    """The text without the neck's own shaping, which would be a second `shaping:`; one line of it is kept."""
    return re.sub(r"(shaping: .*\n)shaping: .*\n", r"\1", text, count=1)


def _printed(made: Neck, row: int, line: str | None = None) -> str:
    """The chart's text up to and with a row's line, so that rows that look alike are told apart."""
    rows = list(made.rows)
    if line is not None:
        rows[row - 1] = line
    return "chart: |\n" + "".join(f"  {text}\n" for text in reversed(rows))


def _taken_off(made: Neck, row: int, half: str) -> str:
    """The chart with three stitches fewer at a side's outer edge from a row up."""
    rows = [
        line if number < row else (f"...{line[3:]}" if half == "left" else f"{line[:-3]}...")
        for number, line in enumerate(made.rows, 1)
    ]
    drawn = "".join(f"  {text}\n" for text in reversed(rows))
    return made.text.replace(_printed(made, 1), f"chart: |\n{drawn}")


def _shaped(text: str, made: Neck, row: int, half: str) -> str:
    shaping = {number: dict(change) for number, change in made.shaping.items()}
    shaping.setdefault(row, {})[half] = -3
    said = f"shaping: {shaping}\n".replace("'", "")
    return re.sub(r"shaping: .*\n", said, text) if made.shaping else text.replace("chart: |", f"{said}chart: |")
