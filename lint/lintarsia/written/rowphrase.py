"""A folded row as one line of standard abbreviations."""

from collections.abc import Sequence

from lintarsia.written.folding import Part, Repeated, stitches_of
from lintarsia.written.symbols import written_yarn

STAR_FROM = 3  # times; a repeat that is worked only twice reads better in brackets


def row_phrase(parts: Sequence[Part], stitch: str, *, stars: bool) -> str:
    """`k3 A, k6 B, k3 A`; `stars` lets a repeat that fills most of the row be written from an asterisk."""
    star = _star(parts) if stars else None
    if star is None:
        return ", ".join(_phrase(part, stitch) for part in parts)
    before, repeat, after = parts[:star], parts[star], parts[star + 1 :]
    assert isinstance(repeat, Repeated)
    left = stitches_of(after)
    until = "end" if not left else f"last {left} st" if left == 1 else f"last {left} sts"
    words = [_phrase(part, stitch) for part in before]
    words.append("*" + ", ".join(_phrase(part, stitch) for part in repeat.parts) + f"; rep from * to {until}")
    words += [_phrase(part, stitch) for part in after]
    return ", ".join(words)


def _phrase(part: Part, stitch: str) -> str:
    if isinstance(part, Repeated):
        inside = ", ".join(_phrase(inner, stitch) for inner in part.parts)
        return f"[{inside}] {part.times} times"
    if len(part.stitch) > 1:  # a decrease by name
        return ", ".join([f"{part.stitch} {written_yarn(part.yarn)}"] * part.count)
    return f"{part.stitch or stitch}{part.count} {written_yarn(part.yarn)}"


def _star(parts: Sequence[Part]) -> int | None:
    """The index of the one repeat that makes up more than half of the row, if there is one."""
    repeats = [i for i, part in enumerate(parts) if isinstance(part, Repeated)]
    if len(repeats) != 1:
        return None
    repeat = parts[repeats[0]]
    assert isinstance(repeat, Repeated)
    enough = repeat.times >= STAR_FROM and 2 * stitches_of([repeat]) > stitches_of(parts)
    return repeats[0] if enough else None
