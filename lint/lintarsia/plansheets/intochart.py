"""The plan's supplies written into the chart file: beside it first, read again, compared, and only then renamed."""

from lintarsia.chart import Chart
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.model import Plan
from lintarsia.plansheets.stating import needed, state_supplies
from lintarsia.reading import read_document
from lintarsia.reading.applying import parted


def write_supplies(file: str, chart: Chart, plan: Plan) -> str:
    """Make the file's `supplies:` section state the plan; what was done, in words.

    Nothing else in the file changes. Raises Trouble, and leaves the file as it was, where that cannot be done.
    """
    wanted = needed(chart, plan)
    counts = ", ".join(f"{symbol} {len(each)}" for symbol, each in wanted.items())
    try:
        with open(file, "rb") as stream:
            old = stream.read()
    except OSError as failure:
        raise Trouble(f"{file!r} cannot be read ({failure.strerror or failure})") from None
    mark, text = parted(old)
    new = mark + state_supplies(text, wanted).encode("utf-8")
    if new == old:
        return f"the supplies stand as planned already ({counts})"
    _check(file, old, new, {symbol: len(each) for symbol, each in wanted.items()})
    replace_file(file, new, expect=old)
    return f"supplies written ({counts})"


def _check(file: str, old: bytes, new: bytes, counts: dict[str, int]) -> None:
    """Read both texts: the new one must say what was wanted, and the same as the old one in all else."""
    before, after = (read_document(file, data, max_bytes=max(len(old), len(new))) for data in (old, new))
    if before.data is None or after.data is None:
        raise Trouble(f"{file}: the supplies cannot be put into this file by adding lines; nothing was written")
    stated, rest = dict(after.data), dict(before.data)
    supplies = stated.pop("supplies", None) or {}
    rest.pop("supplies", None)
    for symbol, count in counts.items():
        found = supplies.get(symbol)
        if (len(found) if isinstance(found, list) else found) != count:
            raise Trouble(f"{file}: supplies for {symbol} cannot be put into this file; nothing was written")
    if stated != rest:
        raise Trouble(f"{file}: writing the supplies would change something else; nothing was written")
