"""What has changed between two revisions, as frozen values. Rows and stitches are the knitter's numbers."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from lintarsia.chart import Chart
from lintarsia.ground.values import dataclass
from lintarsia.result import Result

Stitches = tuple[int, int]


class State(StrEnum):
    SAME = "same"
    CHANGED = "changed"
    ADDED = "added"
    REMOVED = "removed"
    MOVED = "moved"


class How(StrEnum):
    """What a change of rows is told as."""

    STITCHES = "stitches"  # stitches in other colours, their number the same
    COUNT = "count"  # another number of stitches, or other shaping
    SHIFTED = "shifted"
    MIRRORED = "mirrored"
    EXCHANGED = "exchanged"  # with the row above or below
    ADDED = "added"
    DOUBLED = "doubled"  # added, like the row next to it
    REMOVED = "removed"
    TEXTURE = "texture"  # knitted where they were purled, or the other way; some perhaps in other colours as well
    EMBROIDERED = "embroidered"  # in duplicate stitch, over the same knitting
    WORDS = "words"  # the designer's own words for the row


@dataclass(frozen=True, slots=True)
class RowChange:
    """A row of either revision. `stitches` are those that differ, in the numbers of now. `left` is how many stitches
    what has moved stands further to the left (negative: right); `twin` the row that a doubled row is like."""

    row: int | None
    was_row: int | None
    how: How
    stitches: tuple[Stitches, ...] = ()
    left: int = 0
    twin: int | None = None
    was_words: str = ""
    now_words: str = ""
    line: str = ""  # the row of now as the instructions print it, its count included

    @property
    def state(self) -> State:
        return State.ADDED if self.was_row is None else State.REMOVED if self.row is None else State.CHANGED


@dataclass(frozen=True, slots=True)
class Fact:
    """What is said of the chart as a whole and has changed: `what` in words; None where there was or is nothing."""

    what: str
    was: str | None
    now: str | None


@dataclass(frozen=True, slots=True)
class Recolouring:
    """Every stitch of a symbol is worked in another now; `renamed`: only the symbol is another, the yarn is not."""

    was: str
    now: str
    was_name: str
    now_name: str
    renamed: bool


@dataclass(frozen=True, slots=True)
class MotifMoved:
    """A piece's motif begins at another (stitch, row) of the piece. `rows` are those that look otherwise through it."""

    was: tuple[int | None, int | None]
    now: tuple[int | None, int | None]
    rows: tuple[RowChange, ...]


@dataclass(frozen=True, slots=True)
class ChartChange:
    """One chart in two revisions. `same_to_row`: up to it nothing has changed for the hands.

    `turned` are stretches of rows of now (first, last) that are worked on the other side than before.
    """

    was: Chart
    now: Chart
    rows: tuple[RowChange, ...]
    facts: tuple[Fact, ...]
    recolourings: tuple[Recolouring, ...]
    turned: tuple[Stitches, ...]
    same_to_row: int
    motif: MotifMoved | None = None  # then `rows` are those that differ besides

    @property
    def anything(self) -> bool:
        return bool(self.motif or self.rows or self.facts or self.recolourings or self.turned)


@dataclass(frozen=True, slots=True)
class Bought:
    """A yarn to buy: whole balls with the allowance, None where nobody says how long a ball is."""

    name: str
    balls: int | None
    metres: float


@dataclass(frozen=True, slots=True)
class Numbers:
    """What a chart comes to. `yarns` by the file's own names."""

    supplies: int
    ends: int
    most_in_a_row: int
    stitches: int
    metres: float
    yarns: Mapping[str, Bought]


@dataclass(frozen=True, slots=True)
class PieceChange:
    """A piece of a pattern in a size. `change` is None where it has come or gone, or cannot be laid out."""

    piece: str
    size: str
    state: State
    was_fingerprint: str | None
    now_fingerprint: str | None
    chart: str = ""  # the file that it is knitted from now
    change: ChartChange | None = None


@dataclass(frozen=True, slots=True)
class PatternChange:
    """`yarns`: by yarn, then by size, was and now. `stated`: by piece, the sizes for which the file says otherwise
    how much is knitted."""

    facts: tuple[Fact, ...]
    pieces: tuple[PieceChange, ...]
    yarns: Mapping[str, Mapping[str, tuple[Bought | None, Bought | None]]]
    was_version: str = ""
    now_version: str = ""
    sizes: tuple[str, ...] = ()  # in the order of the pattern
    stated: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def changed(self) -> dict[str, set[str]]:
        """The sizes by the pieces that are not knitted as before, whether laid out or only stated otherwise."""
        found = {name: set(sizes) for name, sizes in self.stated.items()}
        for piece in self.pieces:
            found.setdefault(piece.piece, set()).add(piece.size)
        return found


@dataclass(frozen=True, slots=True)
class FileChange:
    """A file in both states. `file` is its name now (of before, where it is gone), `was_file` the one it had.

    Numbers and fingerprints are None where there is no such file or it cannot be read; `unreadable` says which.
    """

    file: str
    was_file: str
    state: State
    was_fingerprint: str | None = None
    now_fingerprint: str | None = None
    chart: ChartChange | None = None
    pattern: PatternChange | None = None
    was_numbers: Numbers | None = None
    now_numbers: Numbers | None = None
    new_results: tuple[Result, ...] = ()
    gone_results: tuple[Result, ...] = ()
    unreadable: tuple[str, ...] = ()  # "was", "now"
    title: str = ""


@dataclass(frozen=True, slots=True)
class Comparison:
    """`old` and `new` are what was compared, in the user's words."""

    old: str
    new: str
    files: tuple[FileChange, ...]

    @property
    def differs(self) -> bool:
        """Whether anything differs for the knitter: a file that was only moved does not."""
        return any(file.state not in (State.SAME, State.MOVED) for file in self.files)
