"""Edits planted at random: each is found, told once as what it is, and nothing else is told.

What was planted says by itself what must be told; the comparison has no part in that. In the pictures no two rows are
alike, so that there is one truth, and edits stand far enough apart to be told apart. Each number
is a picture of its own.
"""

from collections.abc import Callable
from random import Random

import pytest
from planted import HEAD, chart_of

from folding import each
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange, How
from lintarsia.comparing.telling import told

Rows = list[str]  # row 1 first
Told = tuple[int | None, int | None, How]

WIDE, HIGH = 24, 40
APART = 4  # rows between two edits
NEARLY = 5  # stitches


def picture(number: Callable[[int, int], int]) -> Rows:
    """A lopsided shape whose edges wander, with a window; every row is unlike all others, and unlike its own mirror."""
    left, right = number(3, 6), number(13, 17)
    rows: Rows = []
    while len(rows) < HIGH:
        left = min(9, max(2, left + number(-1, 1)))
        right = min(20, max(13, right + number(-1, 1)))
        window = number(left + 1, right - 2)
        row = "B" * left + "R" * (right - left) + "B" * (WIDE - right)
        row = f"{row[:window]}W{row[window + 1 :]}"
        row = f"{row[:22]}{'W' if number(0, 2) else 'B'}B"
        motif = row.strip("B")  # one that is its own mirror has moved as well as been mirrored
        if all(unlike(row, other) for other in rows) and motif != motif[::-1]:
            rows.append(row)
    return rows


def unlike(one: str, other: str) -> bool:
    return one not in (other, other[::-1])


def text(rows: Rows, head: str = HEAD, worked: str = "flat") -> str:
    return head.format(more="", worked=worked) + "".join(f"  {row}\n" for row in reversed(rows))


def compared(was: Rows, now: Rows, worked: str = "flat") -> ChartChange:
    return compare_charts(chart_of(text(was, worked=worked)), chart_of(text(now, worked=worked)))


def outcome(change: ChartChange) -> list[Told]:
    return [(row.row, row.was_row, row.how) for row in change.rows]


class Edits:
    """A picture with edits put into it from the top down, so that rows below keep their numbers."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.number = self.random.randint
        self.was = picture(self.number)
        self.now = list(self.was)
        self.planted: list[tuple[int, int | None, How, int]] = []  # row of before, its new row's place, how, rows more

    def stitch(self, at: int) -> None:
        row = self.now[at - 1]
        stitch = self.number(0, WIDE - 1)
        other = next(symbol for symbol in "WRB" if symbol != row[stitch])
        changed = f"{row[:stitch]}{other}{row[stitch + 1 :]}"
        self.now[at - 1] = changed
        self.planted.append((at, at, How.STITCHES, 0))

    def added(self, at: int) -> None:
        self.now.insert(at, "".join("BWR"[(k * k + at * 7 + k // 5) % 3] for k in range(WIDE)))
        self.planted.append((at, None, How.ADDED, 1))

    def doubled(self, at: int) -> None:
        self.now.insert(at, self.now[at - 1])
        self.planted.append((at, None, How.DOUBLED, 1))

    def removed(self, at: int) -> None:
        del self.now[at - 1]
        self.planted.append((at, at, How.REMOVED, -1))

    def mirrored(self, at: int) -> None:
        row = self.now[at - 1]
        if sum(a != b for a, b in zip(row, row[::-1], strict=True)) < NEARLY:
            self.stitch(at)  # its window has as well moved
            return
        self.now[at - 1] = row[::-1]
        self.planted.append((at, at, How.MIRRORED, 0))

    def shifted(self, at: int) -> None:
        row = self.now[at - 1]
        self.now[at - 1] = f"B{row[:-1]}" if self.number(0, 1) else f"{row[1:]}B"
        self.planted.append((at, at, How.SHIFTED, 0))

    def exchanged(self, at: int) -> None:
        self.now[at - 1], self.now[at] = self.now[at], self.now[at - 1]
        self.planted.append((at, at, How.EXCHANGED, 0))

    def expected(self) -> list[Told]:
        """What was planted, in the numbers of both."""
        made: list[Told] = []
        more = 0
        for at, _, how, rows in sorted(self.planted, key=lambda one: one[0]):
            if rows == 1:
                made.append((at + more + 1, None, how))
            elif rows == -1:
                made.append((None, at, how))
            else:
                made.append((at + more, at, how))
                if how is How.EXCHANGED:
                    made.append((at + more + 1, at + 1, how))
            more += rows
        return made

    def turned(self) -> int:
        """How many stretches of rows show the other side."""
        odd, stretches = False, 0
        for _, _, _, rows in sorted(self.planted, key=lambda one: one[0]):
            odd, before = odd != (rows != 0), odd
            stretches += odd and not before
        return stretches


KINDS = ("stitch", "added", "doubled", "removed", "mirrored", "shifted", "exchanged")


def planted(seed: int) -> Edits:
    edits = Edits(seed)
    places = edits.random.sample(range(1, (HIGH - 3) // APART + 1), edits.number(1, 4))
    for place in sorted(places, reverse=True):
        getattr(edits, edits.random.choice(KINDS))(place * APART)
    return edits


def told_once(seed: int) -> None:
    edits = planted(seed)
    change = compared(edits.was, edits.now)
    assert outcome(change) == edits.expected()
    assert (change.facts, change.recolourings, len(change.turned)) == ((), (), edits.turned())
    assert len(told(change)) == len(edits.planted) + edits.turned()
    first = min(at for at, *_ in edits.planted)
    changed_there = [rows for at, _, how, rows in edits.planted if at == first and how in (How.ADDED, How.DOUBLED)]
    assert change.same_to_row == (first if changed_there else first - 1)


test_each_edit_is_told_once_as_what_it_is = each("seed", range(60), quickly=3)(told_once)
test_each_of_hundreds_is_told_once = pytest.mark.slow(each("seed", range(60, 300))(told_once))


@each("seed", range(300, 350), quickly=3)
def test_in_rounds_nothing_is_turned(seed: int) -> None:
    edits = planted(seed)
    change = compared(edits.was, edits.now, worked="round")
    assert (outcome(change), change.turned) == (edits.expected(), ())


def told_beside(seed: int) -> None:
    """Each colour works where another did, by a permutation of the three."""
    edits = planted(seed)
    others = edits.random.sample("BWR", 3)
    table = str.maketrans("BWR", "".join(others))
    change = compared(edits.was, [row.translate(table) for row in edits.now])
    meant = {(s, t) for s, t in zip("BWR", others, strict=True) if s != t}
    assert {(one.was, one.now) for one in change.recolourings} == meant
    assert outcome(change) == edits.expected()


test_a_recolouring_with_edits_is_both = each("seed", range(350, 380), quickly=3)(told_beside)
test_each_of_many_recolourings_with_edits_is_both = pytest.mark.slow(each("seed", range(380, 450))(told_beside))


WHOLE = {
    "the gauge": ("stitches: 22", "stitches: 21"),
    "the title": ("title: Kite", "title: Dragon"),
    "the shade of W": ("#efe9dc", "#ffffff"),
    "balls of w": ("balls: 1", "balls: 3"),
    "the wearer": ("worked: flat", "worked: flat\nwearer: child"),
    "the limit carry": ("worked: flat", "worked: flat\nlimits: {carry: 3}"),
}


@each("seed", range(540, 600), quickly=3)
def test_what_is_said_of_the_whole_is_told_beside_the_rows(seed: int) -> None:
    edits = planted(seed)
    chosen = edits.random.sample(sorted(WHOLE), edits.number(1, 3))
    was, now = text(edits.was), text(edits.now)
    for what in chosen:
        now = now.replace(*WHOLE[what], 1)
    change = compare_charts(chart_of(was), chart_of(now))
    assert sorted(fact.what for fact in change.facts) == sorted(chosen)
    assert outcome(change) == edits.expected()


def told_as_one(seed: int) -> None:
    random = Random(seed)
    rows, step, way = picture(random.randint), random.randint(1, 5), random.choice([-1, 1])
    first, last = 10, 10 + random.randint(3, 20)
    pad = "B" * 8
    was = [f"{pad}{row}{pad}" for row in rows]
    now = [f"{row[step * way :]}{pad[:step]}" if way > 0 else f"{pad[:step]}{row[: -step or None]}" for row in was]
    now = [b if first <= k <= last else a for k, (a, b) in enumerate(zip(was, now, strict=True), 1)]
    change = compared(was, now)
    assert outcome(change) == [(row, row, How.SHIFTED) for row in range(first, last + 1)]
    assert len(told(change)) == 1


test_a_motif_that_has_moved_is_one_change = each("seed", range(450, 470), quickly=3)(told_as_one)
test_each_of_many_motifs_that_have_moved_is_one_change = pytest.mark.slow(each("seed", range(470, 520))(told_as_one))


@each("seed", range(520, 540), quickly=3)
def test_the_same_chart_in_another_layout(seed: int) -> None:
    random = Random(seed)
    rows = picture(random.randint)
    head, *rest = HEAD.replace("{more}chart: |\n", "").splitlines()
    other = "\n".join(["# drawn anew", head, *_blocks(rest, random)]).replace("over: 10 cm", "over: 100 mm")
    change = compare_charts(chart_of(text(rows)), chart_of(text(rows, f"{other}\nchart: |\n")))
    assert not change.anything


def _blocks(lines: list[str], random: Random) -> list[str]:
    """The keys of a file in another order, each with what stands below it."""
    blocks: list[list[str]] = []
    for line in lines:
        if line.startswith(" "):
            blocks[-1].append(line)
        else:
            blocks.append([line])
    random.shuffle(blocks)
    return [line for block in blocks for line in block]
