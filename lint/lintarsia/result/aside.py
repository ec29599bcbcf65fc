"""Results that lie in a temporary file, a block for each file that they are about."""

import tempfile
import weakref
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import IO, NamedTuple, overload

from lintarsia.ground.trouble import Trouble
from lintarsia.result.model import Result
from lintarsia.result.packing import packed, unpacked
from lintarsia.result.tally import Tally, tally


class _Block(NamedTuple):
    """The results of one file: where they lie in the temporary file, and how many they are."""

    start: int
    length: int
    number: int


class Aside(Sequence[Result]):
    """All results in the order of their files. The temporary file goes with the last that needs it."""

    def __init__(self) -> None:
        self._stream: IO[bytes] = tempfile.TemporaryFile(prefix="lintarsia-")  # noqa: SIM115 - lives as long as this
        weakref.finalize(self, self._stream.close)
        self._blocks: dict[str, _Block] = {}
        self._tally: Counter[Tally] = Counter()

    def add(self, file: str, results: Sequence[Result]) -> None:
        """Raises Trouble where there is no room for them."""
        data = packed(results)
        try:
            start = self._stream.seek(0, 2)
            self._stream.write(data)
            self._stream.flush()
        except OSError as failure:
            where = tempfile.gettempdir()
            raise Trouble(f"the results cannot be put aside in {where} ({failure.strerror or failure})") from None
        self._blocks[file] = _Block(start, len(data), len(results))
        self._tally += tally(results)

    @property
    def tally(self) -> Counter[Tally]:
        """As `tally` counts results, kept while they come."""
        return self._tally

    def __len__(self) -> int:
        return sum(block.number for block in self._blocks.values())

    def __iter__(self) -> Iterator[Result]:
        for file in sorted(self._blocks):
            start, length, _ = self._blocks[file]
            self._stream.seek(start)
            yield from unpacked(self._stream.read(length))

    @overload
    def __getitem__(self, at: int) -> Result: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Result]: ...
    def __getitem__(self, at: int | slice) -> Result | Sequence[Result]:
        if isinstance(at, slice):
            return tuple(self)[at]
        at = range(len(self))[at]
        return next(islice(self, at, None))
