"""What a check asks of a file of any kind. All that it makes of the answers is written once, in `engine/completing.py`.

For each file: `read`, then `gather`, then the rules on `work`, each thing found told as `found`; then what the file
accepts of it. Only the first two may fail.
"""

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any, ClassVar, NamedTuple

from lintarsia.chart import Places
from lintarsia.ground.kinds import Kind
from lintarsia.reading.source import Read
from lintarsia.result import Finding, Picture
from lintarsia.settings.model import Settings


class Found(NamedTuple):
    """A rule's name and what it found. `about` is whatever the kind of file narrows accepted results by."""

    rule: str
    finding: Finding
    about: Any = None


class Acceptance(NamedTuple):
    """An accepted result, of whatever kind of file. `at` is its place in the file's list.

    `covers` is asked about findings of its rule alone. `where` follows the rule's name in words (` in row 14`), with
    `row` and `stitches` where there are any.
    """

    rule: str
    justification: str
    at: int
    covers: Callable[[Found], bool]
    where: str = ""
    row: int | None = None
    stitches: tuple[int, int] | None = None


class Subject(ABC):
    """A file on its way through a check.

    `file` is its path, or names it where `data` has its content. `read` answers for every other file that it names;
    without one they are read from the disk, no further than their repository.
    """

    kind: ClassVar[Kind]
    beside: ClassVar[str] = ""  # what `gather` reads, in words: "its charts"
    work: Any = None  # what rules look at; None where there is nothing that they could
    assumed: frozenset[str] = frozenset()  # parts that its reader stands in for

    def __init__(self, file: str, data: bytes | None, settings: Settings, read: Read | None = None) -> None:
        self.file, self.data, self.settings, self.files = file, data, settings, read

    @abstractmethod
    def read(self) -> Iterable[tuple[str, Finding]]:
        """Read the file: (rule name, finding) for what is wrong with it as a text of its kind."""

    @abstractmethod
    def gather(self) -> None:
        """Make `work` of what was read, where that is enough; read the files that it names."""

    @property
    @abstractmethod
    def places(self) -> Places:
        """Where each statement of the file stands."""

    def found(self, rule: str, told: Any) -> Found:
        """What a rule has yielded."""
        return Found(rule, told)

    def accepted(self) -> Sequence[Acceptance]:
        """The results that the file accepts."""
        return ()

    def picture(self) -> Picture | None:
        """What reports can show of it."""
        return None

    def named(self) -> Iterator[str]:
        """The paths of the files that it names, once it is read; those that it may not name are left out."""
        return iter(())

    def parts(self) -> Iterator[str]:
        """Those of them that are parts of it, as charts are of a pattern: what is so in all of them is told once."""
        return iter(())
