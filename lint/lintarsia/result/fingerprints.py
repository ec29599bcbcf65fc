"""A mark for each result that stays the same while the fault does: rows may be added, the file may move."""

import re
from collections.abc import Sequence

from lintarsia.result import Finding

_ROWS = re.compile(r"\b(rows?|rounds?) \d+(?:(?:–|-| to | and |, )\d+)*")


def fingerprints(found: Sequence[tuple[str, Finding]]) -> list[str]:
    """One 32-digit hexadecimal mark for each (rule, finding) of a chart, in order.

    The mark hashes rule, key and the finding's pattern (its message without row numbers where it has none), and counts
    repeats of the same three, so that the fifth like fault keeps its mark when a sixth is added after it.
    """
    from hashlib import blake2b

    seen: dict[tuple[str, str, str], int] = {}
    marks = []
    for rule, finding in found:
        what = (rule, finding.key, finding.pattern or _ROWS.sub(r"\1", finding.message))
        times = seen[what] = seen.get(what, 0) + 1
        text = "\0".join((*what, str(times)))
        marks.append(blake2b(text.encode("utf-8", "surrogatepass"), digest_size=16).hexdigest())
    return marks
