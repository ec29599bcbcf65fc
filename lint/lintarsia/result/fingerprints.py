"""A mark for each result that stays the same while the fault does: rows may be added, the file may move."""

import re
from collections.abc import Sequence
from typing import NamedTuple

from lintarsia.result import Finding

_ROWS = re.compile(r"\b(rows?|rounds?) \d+(?:(?:–|-| to | and |, )\d+)*")


class OwnMark(NamedTuple):
    """A result's own mark, and that of the first in the file that it is like; "" for that first one."""

    own: str
    alike: str


def fingerprints(found: Sequence[tuple[str, Finding]]) -> list[OwnMark]:
    """A mark of 32 hexadecimal digits for each (rule, finding) of a chart, in order.

    The mark hashes rule, key and the finding's pattern (its message without row numbers where it has none), and counts
    repeats of the same three, so that the fifth like fault keeps its mark when a sixth is added after it.
    """
    from hashlib import blake2b

    seen: dict[tuple[str, str, str], list[str]] = {}
    marks = []
    for rule, finding in found:
        what = (rule, finding.key, finding.pattern or _ROWS.sub(r"\1", finding.message))
        like = seen.setdefault(what, [])
        text = "\0".join((*what, str(len(like) + 1)))
        like.append(blake2b(text.encode("utf-8", "surrogatepass"), digest_size=16).hexdigest())
        marks.append(OwnMark(like[-1], like[0] if len(like) > 1 else ""))
    return marks
