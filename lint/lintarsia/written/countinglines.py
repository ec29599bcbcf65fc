"""How the stitches that a shaped row tells are counted, said where a row of the page needs it.

A row whose decreases are named, as `ssk`, is told as it is worked and needs no words about that. One that only says how
many go or come, `dec 1 st at each end; k9`, tells the stitches after that. Of those bound off at a start one is left on
the needle; here it is counted with what follows: some patterns do and some do not (common practice).
"""

import re
from collections.abc import Iterable, Iterator

from lintarsia.telling.counts import one_of

_CHANGED = re.compile(r"\b(?:(dec|inc) [0-9]+ sts?|(CO|cast on) [0-9]+ sts? (?:at beg|over))\b")
_BOUND_OFF = re.compile(r"\b(BO|cast off) [0-9]+ sts?\b(?! at end)")


def counting_lines(said: Iterable[str]) -> Iterator[str]:
    """At most one line of either kind, in the words that the rows use."""
    text = "\n".join(said)
    changed = sorted({one or other for one, other in _CHANGED.findall(text)}, key=str.casefold)
    if changed:
        yield f"A shaped row that says {one_of(changed)} tells its stitches as they are after that."
    if bound := _BOUND_OFF.search(text):
        yield f"A shaped row that says {bound[1]} counts the stitch then left on the needle with those that follow."
