"""Changes as they are told: rows that have changed alike in one sentence, each sentence once."""

from collections.abc import Sequence

from lintarsia.comparing.consequences import means, past_motif, past_recolouring, stitches_in
from lintarsia.comparing.model import ChartChange, Fact, How, MotifMoved, Recolouring, RowChange
from lintarsia.ground.values import dataclass
from lintarsia.telling.counts import one_and_all, stitch_count
from lintarsia.telling.languages import in_figures, is_english, marked, phrase
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import span


@dataclass(frozen=True, slots=True)
class ToldChange:
    """A change in a sentence. `rows` are its members, none for what is said of the whole chart."""

    words: str
    rows: tuple[RowChange, ...] = ()
    means: str = ""


def told(change: ChartChange) -> list[ToldChange]:
    """Every change once: the whole first, then from the first row up."""
    whole = [ToldChange(recolouring_words(one), means=past_recolouring(change, one)) for one in change.recolourings]
    whole += [ToldChange(fact_words(fact)) for fact in change.facts]
    whole += [ToldChange(motif_words(change.motif), change.motif.rows, past_motif(change))] if change.motif else []
    word, rows = row_word(change.now), [_group(change, group) for group in groups(change.rows)]
    return whole + rows + [ToldChange(turned_words(word, first, last)) for first, last in change.turned]


def fact_words(fact: Fact) -> str:
    if fact.was is None or fact.now is None:
        value, verb = (fact.now, phrase("new")) if fact.was is None else (fact.was, phrase("gone"))
        return f"{what_words(fact.what)}: {verb}" + (f", {value}" if value not in ("", "in the key") else "")
    what = what_words(fact.what)
    return f"{what}: {fact.was} → {fact.now}" if fact.was or fact.now else phrase("{what} is another", what=what)


# What a chart says as a whole, see `facts.py`; the last word of the second kind is a symbol or a name.
WHOLE = marked(
    "the title", "worked", "the first row", "the technique", "stitches of the whole round", "the first stitches",
    "the last stitches", "the gauge", "the needle", "the yarn of a stitch", "the gauge of the stranded fabric",
    "the wearer", "the repeat box", "decreases", "floats are caught every",
)  # fmt: skip
OF_ONE = marked(
    "colour {name}", "the name of {name}", "the shade of {name}", "the yarn of {name}", "other names of {name}",
    "the yarn {name}", "weight of {name}", "length of a ball of {name}", "mass of a ball of {name}",
    "balls of {name}", "fibre of {name}", "stated supplies of {name}", "the limit {name}",
    "the opening from row {name}",
)  # fmt: skip


def what_words(what: str) -> str:
    """What a fact is of, in the language that is spoken."""
    kind, _, name = what.rpartition(" ")
    if what not in WHOLE and f"{kind} {{name}}" in OF_ONE:
        return phrase(f"{kind} {{name}}", name=name)
    return phrase(what) if what in WHOLE else what


def recolouring_words(one: Recolouring) -> str:
    if one.renamed:
        return phrase(
            "the symbol {was} is written {now} now; the colour is the same ({name})",
            was=one.was, now=one.now, name=one.now_name,
        )  # fmt: skip
    was, now = f"{one.was} ({one.was_name})", f"{one.now} ({one.now_name})"
    return phrase("every stitch of {was} is worked in {now} now", was=was, now=now)


def motif_words(moved: MotifMoved) -> str:
    """`the motif begins at stitch 33, not 31`, `… at stitch 33 of row 12, not stitch 31 of row 10`."""
    (stitch, row), (was_stitch, was_row) = moved.now, moved.was
    if row == was_row:
        return phrase("the motif begins at stitch {stitch}, not {was}", stitch=stitch, was=was_stitch)
    if stitch == was_stitch:
        return phrase("the motif begins at row {row}, not {was}", row=row, was=was_row)
    return phrase(
        "the motif begins at stitch {stitch} of row {row}, not stitch {was_stitch} of row {was_row}",
        stitch=stitch, row=row, was_stitch=was_stitch, was_row=was_row,
    )  # fmt: skip


def turned_words(word: str, first: int, last: int) -> str:
    where = f"{phrase(word + 's')} {first}–{last}" if last > first else f"{phrase(word)} {first}"
    return phrase(
        "{place}: an odd number of {words} came or went below, so right side and wrong side have changed places here",
        word,
        place=where,
    )


def groups(rows: Sequence[RowChange]) -> list[list[RowChange]]:
    """Neighbouring rows that have changed in the same way."""
    found: list[list[RowChange]] = []
    for row in rows:
        if found and _goes_on(found[-1][-1], row):
            found[-1].append(row)
        else:
            found.append([row])
    return found


def _goes_on(one: RowChange, two: RowChange) -> bool:
    if one.how is not two.how or one.how in (How.STITCHES, How.TEXTURE, How.WORDS, How.EMBROIDERED):
        return False
    if one.how is How.DOUBLED and one.twin != two.twin:
        return False
    near = [(a, b) for a, b in ((one.row, two.row), (one.was_row, two.was_row)) if a is not None and b is not None]
    reach = 3 if one.how is How.SHIFTED else 1  # a plain row of a motif moves unseen
    return one.left == two.left and all(0 < b - a <= reach for a, b in near)


def _group(change: ChartChange, rows: list[RowChange]) -> ToldChange:
    return ToldChange(_words(change, rows), tuple(rows), means(change, rows))


def _words(change: ChartChange, rows: list[RowChange]) -> str:
    first, word = rows[0], row_word(change.now)
    where = place(change, rows)
    match first.how:
        case How.REMOVED:
            return _of(rows, "{place} is dropped", "{place} are dropped", place=where)
        case How.ADDED:
            return _of(rows, "{place} is new", "{place} are new", place=where)
        case How.DOUBLED:
            twin = f"{phrase(word)} {first.twin}"
            return _of(rows, "{place} is new, like {twin}", "{place} are new, like {twin}", place=where, twin=twin)
        case How.SHIFTED:
            far = stitch_count(abs(first.left))
            if first.left > 0:
                return phrase("{place}: moved {stitches} to the left", place=where, stitches=far)
            return phrase("{place}: moved {stitches} to the right", place=where, stitches=far)
        case How.MIRRORED:
            return phrase("{place}: mirrored", place=where)
        case How.EXCHANGED if len(rows) == 2:
            return phrase("{place} have changed places", place=where)
        case How.EXCHANGED:
            return phrase("{place}: in another order", place=where)
        case How.TEXTURE if stitches_in(rows) == 1:
            return f"{where}: {phrase('{stitches} is knitted or purled otherwise', stitches=_stitches(first))}"
        case How.TEXTURE:
            return f"{where}: {phrase('{stitches} are knitted or purled otherwise', stitches=_stitches(first))}"
        case How.EMBROIDERED:
            return f"{where}: {phrase('other duplicate stitch in {stitches}', stitches=_stitches(first))}"
        case How.WORDS:
            return f"{where}: {phrase('the written row is another, the chart is not')}"
        case How.COUNT:
            return f"{where}: {_counts(change, rows)}"
        case _ if stitches_in(rows) == 1:
            return f"{where}: {phrase('{stitches} is in another colour', stitches=_stitches(first))}"
        case _:
            return f"{where}: {phrase('{stitches} are in another colour', stitches=_stitches(first))}"


def _of(rows: Sequence[RowChange], one: str, many: str, **values: object) -> str:
    return phrase(one if len(rows) == 1 else many, "", **values)


OF_ROWS = marked(
    "{place} is dropped", "{place} are dropped", "{place} is new", "{place} are new", "{place} is new, like {twin}",
    "{place} are new, like {twin}",
)  # fmt: skip


def place(change: ChartChange, rows: Sequence[RowChange]) -> str:
    """`row 42 (WS)`, `rows 42–45`; of rows that were dropped, in the old numbers. A row that has another number now
    says which it had."""
    gone = rows[0].row is None
    chart = change.was if gone else change.now
    numbers = [int((c.was_row if gone else c.row) or 0) for c in rows]
    word = row_word(chart)
    if len(numbers) == 1:
        side = "" if word == "round" else f" ({phrase(chart.side(numbers[0]).value)})"
        name = f"{phrase(word)} {numbers[0]}{side}"
    else:
        name = f"{phrase(word + 's')} {span(numbers[0], numbers[-1])}"
    if gone:
        return phrase("{place} of before", place=name)
    before = [c.was_row for c in rows if c.was_row is not None]
    if before and before[0] != numbers[0]:
        name += phrase(", {rows} before", rows=span(before[0], before[-1]))
    return name


def _stitches(row: RowChange) -> str:
    listed = one_and_all([span(*part) for part in row.stitches])
    return phrase("stitches {list}", list=listed) if stitches_in([row]) > 1 else phrase("stitch {list}", list=listed)


def _counts(change: ChartChange, rows: list[RowChange]) -> str:
    own = [c for c in rows if c.row and c.was_row]
    was = [change.was.grid.stitches(c.was_row or 1) for c in own]
    now = [change.now.grid.stitches(c.row or 1) for c in own]
    if was == now:
        return phrase("the same number of stitches, shaped otherwise")
    return phrase("{stitches} instead of {was}", stitches=_range(now), was=_bare(was))


def _range(numbers: Sequence[int]) -> str:
    low, high = min(numbers), max(numbers)
    return stitch_count(low) if low == high else phrase("{low} to {high} stitches", low=low, high=high)


def _bare(numbers: Sequence[int]) -> str:
    """The same without the word, which has just been said."""
    low, high = min(numbers), max(numbers)
    if low == high:
        return "1 stitch" if low == 1 and is_english() else in_figures(f"{low:,}")
    return phrase("{least} to {most}", least=low, most=high)


def safe_words(change: ChartChange) -> str:
    """`unchanged up to row 41`, and what that means."""
    word, same, last = row_word(change.now), change.same_to_row, change.now.grid.height
    if same >= last and same >= change.was.grid.height:
        return f"every {word} is unchanged: go on where you are"
    if not same:
        return f"changed from the first {word} on"
    return f"unchanged up to {word} {same}: whoever is no further goes on with the new chart"
