"""More results than should be held in memory: put aside in a temporary file, and had again in their order.

A thousand charts of noise have millions of results, which take gigabytes as objects and are looked at one by one.
"""

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from lintarsia.result.model import Result

if TYPE_CHECKING:
    from lintarsia.result.aside import Aside

HELD = 20_000  # results, which take some thirty megabytes


class Spool:
    """Takes the results of one file after another; `results` are all of them, sorted as `Result.order` says."""

    def __init__(self, held: int = HELD) -> None:
        self._most = held
        self._held: list[Result] = []
        self._aside: Aside | None = None

    def add(self, results: Sequence[Result]) -> None:
        """Results of a file, some of which may stand in another: a pattern tells what is wrong in its charts. Raises
        Trouble where they cannot be put aside."""
        self._held += results
        if len(self._held) > self._most:
            self._put_aside()

    def _put_aside(self) -> None:
        if self._aside is None:
            from lintarsia.result.aside import Aside  # most runs have few results, and need nothing that this loads

            self._aside = Aside()
        for _, own in groupby(sorted(self._held, key=lambda result: result.order), lambda result: result.file):
            self._aside.add(list(own))
        self._held = []

    def results(self) -> Sequence[Result]:
        """A tuple, unless they are many."""
        if self._aside is not None:
            self._put_aside()
            return self._aside
        return tuple(sorted(self._held, key=lambda result: result.order))
