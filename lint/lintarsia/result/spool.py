"""More results than should be held in memory: put aside in a temporary file, and had again in their order.

A thousand charts of noise have millions of results, which take gigabytes as objects and are looked at one by one.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from lintarsia.result.model import Result

if TYPE_CHECKING:
    from lintarsia.result.aside import Aside

HELD = 20_000  # results, which take some thirty megabytes


class Spool:
    """Takes the results of one file after another; `results` are all of them, sorted as `Result.order` says."""

    def __init__(self, held: int = HELD) -> None:
        self._most = held
        self._held: dict[str, list[Result]] = {}
        self._number = 0
        self._aside: Aside | None = None

    def add(self, file: str, results: Sequence[Result]) -> None:
        """All results of `file`, which is added once. Raises Trouble where they cannot be put aside."""
        ordered = sorted(results, key=lambda result: result.order)
        self._number += len(ordered)
        if self._aside is None and self._number > self._most:
            from lintarsia.result.aside import Aside  # most runs have few results, and need nothing that this loads

            self._aside = Aside()
            for name, own in self._held.items():
                self._aside.add(name, own)
            self._held = {}
        if self._aside is not None:
            self._aside.add(file, ordered)
        else:
            self._held[file] = ordered

    def results(self) -> Sequence[Result]:
        """A tuple, unless they are many."""
        if self._aside is not None:
            return self._aside
        return tuple(result for _, own in sorted(self._held.items()) for result in own)
