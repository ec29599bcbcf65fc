"""Symbols that stand for another colour throughout: one change, however many rows have it."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence

from lintarsia.chart import Chart
from lintarsia.chart.aligning import align
from lintarsia.chart.grid import NO_STITCH_SYMBOL

SHARE = 0.8  # of a symbol's stitches that must agree on what it has become
LEFT = 0.1  # of its stitches that may be there still: single stitches changed besides


def recoloured(was: Chart, now: Chart) -> dict[str, str]:
    """Old symbol → new symbol, for those of which every stitch is worked in another now. Exchanges count as well."""
    old, new = was.grid.rows, now.grid.rows
    if old == new:
        return {}
    found = {s: t for s, t in _votes(old, new).items() if s != t and _gone(s, was, now)}
    found = {s: t for s, t in found.items() if not _stays(s, found, old, new)}
    if found and _unlike(translated(old, found), new) < _unlike(old, new):
        return found
    return {}


def translated(rows: Sequence[str], symbols: Mapping[str, str]) -> tuple[str, ...]:
    """The rows with every symbol put for another."""
    table = str.maketrans(dict(symbols))
    return tuple(row.translate(table) for row in rows)


def _votes(old: Sequence[str], new: Sequence[str]) -> dict[str, str]:
    """What each symbol has become, by rows whose stitches change colour at the same places."""
    votes: dict[str, Counter[str]] = defaultdict(Counter)
    for pair in align([_shape(row) for row in old], [_shape(row) for row in new]):
        if pair.was and pair.now and _shape(old[pair.was - 1]) == _shape(new[pair.now - 1]):
            for one, other in zip(old[pair.was - 1], new[pair.now - 1], strict=True):
                votes[one][other] += 1
    agreed = {}
    for symbol, count in votes.items():
        other, number = count.most_common(1)[0]
        if symbol != NO_STITCH_SYMBOL and other != NO_STITCH_SYMBOL and number >= SHARE * count.total():
            agreed[symbol] = other
    return agreed


def _shape(row: str) -> str:
    """The row with its colours numbered in the order in which they come."""
    known: dict[str, str] = {NO_STITCH_SYMBOL: NO_STITCH_SYMBOL}
    for symbol in row:
        known.setdefault(symbol, chr(0xE000 + len(known)))
    return "".join(known[symbol] for symbol in row)


def _gone(symbol: str, was: Chart, now: Chart) -> bool:
    """One stitch of a colour that is still in the key is a stitch that has changed, and no colour."""
    return symbol not in now.colours or sum(row.count(symbol) for row in was.grid.rows) > 1


def _stays(symbol: str, found: Mapping[str, str], old: Sequence[str], new: Sequence[str]) -> bool:
    if symbol in found.values():
        return False  # exchanged
    before, after = (sum(row.count(symbol) for row in rows) for rows in (old, new))
    return after > LEFT * before


def _unlike(old: Sequence[str], new: Sequence[str]) -> int:
    one, other = Counter(old), Counter(new)
    return (one - other).total() + (other - one).total()
