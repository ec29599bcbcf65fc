"""Slips planted between the words and a chart are found in their own row, and nowhere else."""

import random
import re
from dataclasses import replace
from itertools import cycle
from pathlib import Path

import pytest

from folding import each
from lintarsia.chart import Chart
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Work
from lintarsia.written import Style, write_rows

RULES = ["words/mismatch", "words/missing-row", "words/side", "words/unreadable", "words/wrong-count"]
COUNTED = re.compile(r"\b([kp])(\d+) ")
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.chart.yaml"))


def found(chart: Chart, written: dict[int, str]) -> list[tuple[str, int | None]]:
    work = Work(replace(chart, written=written))
    checks = [(name, check) for name in RULES if (check := catalogue.load(name).check)]
    assert len(checks) == len(RULES)
    return [(name, finding.row) for name, check in checks for finding in check(work, NoOptions())]


def rows(chart: Chart, *, fold: bool) -> dict[int, str]:
    style = Style(fold=fold, stars=fold, merge=False)
    return {row.rows[0]: f"{row.label}: {row.text}" for row in write_rows(chart, style=style)}


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.name.partition(".")[0])
@pytest.mark.parametrize("fold", [True, False])
@pytest.mark.slow
def test_every_one_of_25_planted_slips_is_found_where_it_is(file: Path, fold: bool) -> None:
    plant(file, fold, 25)


@each("file, fold", zip(EXAMPLES, cycle([True, False])), named=lambda case: case[0].name, quickly=3)
def test_every_planted_slip_is_found_where_it_is(file: Path, fold: bool) -> None:
    plant(file, fold, 4)


def plant(file: Path, fold: bool, slips: int) -> None:
    chart = read_chart(str(file)).chart
    assert chart is not None
    written = rows(chart, fold=fold)
    assert found(chart, written) == []
    rng = random.Random(f"{file}{fold}")
    for _ in range(slips):
        row = rng.choice([row for row, words in written.items() if COUNTED.search(words)])
        slip = rng.choice(list(COUNTED.finditer(written[row])))
        # Words may leave out the stitch that binding off leaves on the needle, in all such rows or in none: one fewer
        # is no certain slip where there is one such row alone.
        alone = "BO " in written[row] and sum("BO " in words for words in written.values()) == 1
        number = int(slip[2]) + (1 if alone else rng.choice([-1, 1]))
        text = f"{slip[1]}{number} "
        changed = written[row][: slip.start()] + text + written[row][slip.end() :]
        results = found(chart, {**written, row: changed})
        # In moss stitch a stitch too few may come out in the colours and not in knit and purl.
        rule = "words/side" if chart.texture and results == [("words/side", row)] else "words/mismatch"
        assert results == [(rule, row)], changed


@each("file", EXAMPLES, named=lambda file: file.name, quickly=3)
def test_rows_that_change_colours_side_or_count(file: Path) -> None:
    chart = read_chart(str(file)).chart
    assert chart is not None
    written = rows(chart, fold=False)
    colours = {r: re.findall(r"[kp]\d+ (\S+?)[,.]", text) for r, text in written.items()}
    row = next(r for r, text in written.items() if len(set(colours[r])) > 1 and " 1 " not in text)
    first = colours[row][0]
    second = next(colour for colour in colours[row] if colour != first)
    swapped = re.sub(rf" {second}([,.])", rf" {first}\1", written[row], count=1)
    assert found(chart, {**written, row: swapped}) == [("words/mismatch", row)]
    counted = re.sub(r"\((\d+) sts\)", lambda m: f"({int(m[1]) + 2} sts)", written[row])
    assert found(chart, {**written, row: counted}) == [("words/wrong-count", row)]
    missing = {r: text for r, text in written.items() if r != row}
    assert found(chart, missing) == [("words/missing-row", row)]
    assert found(chart, {**written, row: written[row].replace(" ", " zzz ", 3)})[0] == ("words/unreadable", row)
