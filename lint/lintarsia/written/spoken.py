"""What the words of a row say, before they are worked out: stitches, repeats, colours taken up."""

from lintarsia.ground.values import dataclass
from lintarsia.written.order import ColourSupply


@dataclass(frozen=True, slots=True)
class Times:
    """A plain number of times."""

    number: int


@dataclass(frozen=True, slots=True)
class Until:
    """Until `left` stitches of the row are left to work."""

    left: int


HowOften = Times | Until


@dataclass(frozen=True, slots=True)
class StitchWork:
    """One kind of stitch: `stitch` is its abbreviation, or "" where none is said.

    `takes` stitches of the row below make `makes` new ones, each time. `yarn` None: in the colour that is in hand, or
    as `follows` says: "chart" in the chart's own colours, "below" in those of the row below, "even" in the colour in
    hand or, where there is none, the chart's own. `start` and `end` index the text.
    """

    stitch: str
    often: HowOften
    yarn: ColourSupply | None
    start: int
    end: int
    takes: int = 1
    makes: int = 1
    follows: str = ""

    @property
    def shapes(self) -> bool:
        return self.takes != self.makes


@dataclass(frozen=True, slots=True)
class TakeUp:
    """`with A`: the colour of what follows."""

    yarn: ColourSupply


@dataclass(frozen=True, slots=True)
class Again:
    """`items` worked `often`; from an asterisk they are worked at least once."""

    items: tuple["Item", ...]
    often: HowOften
    start: int
    end: int
    at_least_once: bool = False


Item = StitchWork | TakeUp | Again


@dataclass(frozen=True, slots=True)
class Label:
    """What the words say of themselves before they begin: row numbers, side."""

    rows: tuple[int, ...] = ()
    side: str = ""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A whole row. `as_rows` refers to other rows' words; `stated` is the count given in brackets.

    `sizes` is for how many sizes the words give their numbers; these are those of one. `shaped`: changes of stitch
    count are mentioned without saying which stitches make them. `stated_after`: the count given is that of the last of
    the rows that the words are for.
    """

    items: tuple[Item, ...] = ()
    label: Label = Label()
    stated: int | None = None
    as_rows: tuple[int, ...] = ()
    shaped: bool = False
    sizes: int = 1
    stated_after: bool = False
