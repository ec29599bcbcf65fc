"""Results that lie in a temporary file, a block for each file that they are about."""

import tempfile
import weakref
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import islice
from typing import IO, NamedTuple, overload

from lintarsia.ground.packing import packed, unpacked
from lintarsia.ground.trouble import Trouble
from lintarsia.result.model import Result
from lintarsia.result.tally import Tally, tally


class _Lazy(Sequence[Result]):
    """Results made as they are gone through: all that a sequence has, by way of those."""

    @overload
    def __getitem__(self, at: int) -> Result: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Result]: ...
    def __getitem__(self, at: int | slice) -> Result | Sequence[Result]:
        if isinstance(at, slice):
            return tuple(self)[at]
        at = range(len(self))[at]
        return next(islice(self, at, None))


class _Block(NamedTuple):
    """Results of one file: where they lie in the temporary file."""

    start: int
    length: int


class Aside(_Lazy):
    """All results in the order of their files. The temporary file goes with the last that needs it."""

    def __init__(self) -> None:
        self._stream: IO[bytes] = tempfile.TemporaryFile(prefix="lintarsia-")  # noqa: SIM115 - lives as long as this
        weakref.finalize(self, self._stream.close)
        self._blocks: dict[str, list[_Block]] = {}
        self._tally: Counter[Tally] = Counter()

    def add(self, results: Sequence[Result]) -> None:
        """Results of one file, in their order; more of it may come. Raises Trouble where there is no room for them."""
        data = packed(results)
        try:
            start = self._stream.seek(0, 2)
            self._stream.write(data)
            self._stream.flush()
        except OSError as failure:
            where = tempfile.gettempdir()
            raise Trouble(f"the results cannot be put aside in {where} ({failure.strerror or failure})") from None
        self._blocks.setdefault(results[0].file, []).append(_Block(start, len(data)))
        self._tally += tally(results)

    @property
    def tally(self) -> Counter[Tally]:
        """As `tally` counts results, kept while they come."""
        return self._tally

    def __len__(self) -> int:
        return self._tally.total()

    def __iter__(self) -> Iterator[Result]:
        for file in sorted(self._blocks):
            yield from self._of(self._blocks[file])

    def _of(self, blocks: Sequence[_Block]) -> Sequence[Result]:
        results: list[Result] = []
        for start, length in blocks:
            self._stream.seek(start)
            results += unpacked(self._stream.read(length))
        return results if len(blocks) == 1 else sorted(results, key=lambda result: result.order)


class Renamed(_Lazy):
    """Other results, with other names for their files."""

    def __init__(self, results: Sequence[Result], named: Callable[[str], str]) -> None:
        self._results, self._named = results, named

    @property
    def tally(self) -> Counter[Tally]:
        """As `tally` counts results."""
        counted: Counter[Tally] = Counter()
        for kind, number in tally(self._results).items():
            counted[kind._replace(file=self._named(kind.file))] += number
        return counted

    def __len__(self) -> int:
        return len(self._results)

    def __iter__(self) -> Iterator[Result]:
        return (replace(result, file=self._named(result.file)) for result in self._results)
