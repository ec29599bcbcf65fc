"""words/wrong-count: how many stitches a written row comes to, and says it comes to, against the chart."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.written_once import as_charted, once
from lintarsia.telling.counts import stitch_count

if TYPE_CHECKING:
    from lintarsia.written.row import WrittenRow

Options = NoOptions
INFO = RuleInfo(
    name="words/wrong-count",
    level=Level.ERROR,
    summary="a written row has, or is said to have, another count of stitches than the chart",
    why=(
        "A row that comes to a stitch too few or too many cannot be worked into the one below. Knitters count after a "
        "row and compare, too: a count that is wrong in print sends them looking for a mistake they have not made, "
        "often by ripping back."
    ),
    remedy="give the count that the row has when it is finished, or mend the row",
    keys={
        "wrong-count": "the count in brackets differs from the stitches of the charted row",
        "words-come-to": "no count is given, and the words come to another one than the charted row has",
        "needle-not-worked": "the words come to the row's count out of more or fewer stitches than hang on the needle",
    },
    sources=("common practice: counts are given for the end of the row",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row whose stated count is wrong, or that states none and whose words come to a wrong one.

    Where the stitches differ too, it says where: that is the same slip. Where a repeat does not come out even the words
    come to no count at all: words/mismatch says so.
    """
    yield from once((row, _finding(work, row)) for row in work.written if row.count_is_off)


def _finding(work: Work, row: "WrittenRow") -> Finding:
    assert row.spoken is not None
    name, stated = row.name, row.spoken.stated
    charted, made = len(row.charted), len(row.symbols)
    if stated is not None and stated != charted:
        words = "" if made == charted else f", and the words come to {made}"
        message = f"{name} is said to have {stitch_count(stated)}; the chart has {charted}{words}"
        key = "wrong-count"
    elif made != charted:
        message = f"the words of {name} come to {stitch_count(made)}; the chart has {charted}"
        key = "words-come-to"
    else:
        return _part(work, row, name)
    at = row.differs_at
    if at is None:
        return Finding(key, message, row.region, row.row, pattern=row.words)
    stitch = row.stitches[at] if at < charted else None
    where = "they go on after the last stitch" if stitch is None else f"they part at stitch {stitch}"
    place = None if stitch is None else (stitch, stitch)
    message = f"{message}; {where}; {row.both}"
    return Finding(key, message, row.region, row.row, place, fixes=as_charted(work, row), pattern=row.words)


def _part(work: Work, row: "WrittenRow", name: str) -> Finding:
    assert row.made is not None
    left = row.made.left
    hang = row.taken + left
    found = f"leave {stitch_count(left)} unworked" if left > 0 else f"take {stitch_count(-left)} more than there are"
    message = (
        f"the words of {name} {found}: {stitch_count(hang)} hang on the needle before it, and they work {row.taken}"
    )
    return Finding("needle-not-worked", message, row.region, row.row, pattern=row.words)
