"""Words for several sizes at once, read again for each size and set against that size's piece, stitch by stitch."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pattern_files import chart_text, write_pattern

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.choosing import PieceInSize, choose
from lintarsia.pattern.nested import nested, nested_page, nests
from lintarsia.pattern.reading import read_pattern
from lintarsia.settings import Settings
from lintarsia.written.page import RowsPage
from lintarsia.written.style import Style


def page(folder: Path, text: str, chart: str) -> tuple[RowsPage, tuple[PieceInSize, ...]]:
    reading = read_pattern(str(write_pattern(folder, text, f=chart)))
    assert reading.pattern is not None
    work = work_on(reading.pattern, Settings(root=str(folder)))
    sizes = choose(work, None, None)
    own = work.chart(sizes[0].piece, sizes[0].size)
    assert own is not None
    assert nests(own, sizes)
    return nested_page(own, sizes, "Hat", Style()), sizes


def number(said: str, size: int) -> int:
    found = [int(n) for n in re.findall(r"\d+", said)]
    return found[size] if len(found) > 1 else found[0]


def stitches(words: str, size: int) -> str:
    """Symbols in working order, by a reader of its own: `k3 N` or `p66 (72, 78) N`."""
    found = re.findall(r"[kp](\d+(?: \([\d, ]+\))?) (\w)", words)
    return "".join(symbol * number(counts, size) for counts, symbol in found)


def worked(words: str, size: int, total: int) -> str:
    """A whole row of `total` stitches, its repeat worked as often as there is room."""
    if "*" not in words:
        return stitches(words, size)
    before, _, rest = words.partition("*")
    inside, _, after = rest.partition("; rep from * ")
    head, box, tail = stitches(before, size), stitches(inside, size), ""
    if after.startswith("to last"):
        left, _, tail_words = after.removeprefix("to last ").partition(" sts, ")
        tail = stitches(tail_words, size)
        assert len(tail) == number(left, size)
    times, over = divmod(total - len(head) - len(tail), len(box))
    assert over == 0
    return head + box * times + tail


def check(made: RowsPage, sizes: tuple[PieceInSize, ...]) -> None:
    lines = {row: line for line in made.rows for row in line.rows}
    for at, one in enumerate(sizes):
        for row in range(1, one.chart.grid.height + 1):
            source = one.laid.weave.chart_row(row)
            if source is None:
                continue
            grid = one.chart.grid.rows[row - 1]
            line = lines[source]
            assert number(line.counts, at) == len(grid)
            assert worked(line.words, at, len(grid)) == (grid[::-1] if one.chart.leftward(row) else grid)


def test_a_hat_in_three_sizes(tmp_path: Path) -> None:
    text = """\
sizes: [s, m, l]
pieces:
  hat: {chart: f.chart.yaml, cast-on: {s: 66, m: 72, l: 78}, rows: {s: 6, m: 6, l: 9}}
"""
    box = "worked: round\ntechnique: stranded\nrepeat: {stitches: [1, 6], rows: [1, 3]}\n"
    made, sizes = page(tmp_path, text, chart_text("BBWBBB BWWWBB BBBBBB", box))
    assert [f"{line.label}: {line.text}" for line in made.rows] == [
        "Round 1: k66 (72, 78) B. (66 (72, 78) sts)",
        "Round 2: *k2 B, k3 W, k1 B; rep from * around. (66 (72, 78) sts)",
        "Round 3: *k3 B, k1 W, k2 B; rep from * around. (66 (72, 78) sts)",
    ]
    assert made.reading[-3:] == (
        "Sizes: s (m, l). One number is for all sizes.",
        "Cast on 66 (72, 78) sts.",
        "Work rounds 1–3 2 (2, 3) times in all.",
    )
    check(made, sizes)


def test_a_motif_on_plain_knitting(tmp_path: Path) -> None:
    text = """\
sizes: [s, l]
pieces:
  bag: {chart: f.chart.yaml, plain: B, cast-on: {s: 6, l: 13}, rows: {s: 4, l: 9}, at: {row: {s: 1, l: 5}}}
"""
    made, sizes = page(tmp_path, text, chart_text("WWB BWW BBW"))
    assert [line.text for line in made.rows] == [
        "k1 (5) B, k1 W, k4 (7) B. (6 (13) sts)",
        "p3 (6) B, p2 W, p1 (5) B. (6 (13) sts)",
        "k2 (6) B, k2 W, k2 (5) B. (6 (13) sts)",
    ]
    check(made, sizes)


@pytest.mark.parametrize(("numbers", "words"), [((66, 72, 78), "66 (72, 78)"), ((4, 4), "4"), ((0, 11), "0 (11)")])
def test_the_usual_form(numbers: tuple[int, ...], words: str) -> None:
    assert nested(numbers) == words


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.text("BW", min_size=7, max_size=7), min_size=1, max_size=5),
    st.integers(1, 4),
    st.integers(0, 3),
    st.lists(st.integers(1, 6), min_size=2, max_size=4),
)
def test_any_repeat(
    tmp_path_factory: pytest.TempPathFactory, rows: list[str], first: int, more: int, times: list[int]
) -> None:
    names = [f"size {n}" for n in range(len(times))]
    by_size = ", ".join(f"{name}: {n}" for name, n in zip(names, times, strict=True))
    text = f"sizes: [{', '.join(names)}]\npieces:\n  hat: {{chart: f.chart.yaml, repeats: {{{by_size}}}}}\n"
    box = f"repeat: {{stitches: [{first}, {first + more}], rows: [1, {len(rows)}]}}\n"
    check(*page(tmp_path_factory.mktemp("any"), text, chart_text(" ".join(rows), box)))
