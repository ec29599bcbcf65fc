"""What a row repeats from end to end: one stretch over and over, and perhaps a part of it once more at the end."""

from collections.abc import Hashable, Sequence


def motif(stitches: Sequence[Hashable]) -> int | None:
    """The fewest stitches that a row repeats throughout, at least twice; None where it repeats none, or one stitch.

    By the lengths to which every beginning of the row comes again at its own end, which takes one pass (D. E. Knuth,
    J. H. Morris, V. R. Pratt, "Fast Pattern Matching in Strings", SIAM Journal on Computing 6 (1977), from memory).
    """
    ends = [0] * len(stitches)
    for at in range(1, len(stitches)):
        same = ends[at - 1]
        while same and stitches[at] != stitches[same]:
            same = ends[same - 1]
        ends[at] = same + (stitches[at] == stitches[same])
    wide = len(stitches) - (ends[-1] if ends else 0)
    return wide if 1 < wide <= len(stitches) // 2 else None
