"""Shaping as a row's words have it. The chart says how many stitches change at which edge, not which stitch does it."""

from lintarsia.chart import Chart, Shaping


def shaping_phrase(chart: Chart, row: int) -> str:
    """`dec 1 st at each end`, `inc 2 sts at beg (right edge)`, `dec 2 sts`; "" where the count stays."""
    shaping = chart.shaping.get(row)
    if shaping is None or not (shaping.net or shaping.left or shaping.right):
        return ""
    if shaping.left is None or shaping.right is None:
        return _change(shaping.net)
    return _sided(shaping, shaping.left, shaping.right, rightmost_first=chart.leftward(row))


def _sided(shaping: Shaping, left: int, right: int, *, rightmost_first: bool) -> str:
    if left == right:
        return f"{_change(left)} at each end"
    edges = [(right, "right"), (left, "left")] if rightmost_first else [(left, "left"), (right, "right")]
    ends = zip(edges, ("beg", "end"), strict=True)
    said = [f"{_change(change)} at {end} ({edge} edge)" for (change, edge), end in ends if change]
    return " and ".join(said)


def _change(number: int) -> str:
    return f"{'inc' if number > 0 else 'dec'} {abs(number)} {'st' if abs(number) == 1 else 'sts'}"
