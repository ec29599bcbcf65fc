"""A document as its parts: plain frozen values that every format writes out in its own way. No text is escaped here."""

from lintarsia.ground.values import dataclass
from lintarsia.publishing.imprint import NO_IMPRINT, Imprint

Lines = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing: SVG, what it is for those who do not see it, and how wide it is on paper, mm. `name` is a file's name
    without its ending. `whole_page` is for a sheet that brings its own margins."""

    name: str
    svg: str
    alt: str
    wide_mm: float
    caption: str = ""
    whole_page: bool = False


@dataclass(frozen=True, slots=True)
class Prose:
    """A paragraph."""

    text: str


@dataclass(frozen=True, slots=True)
class Glossary:
    """What, and words for it: abbreviations, notions, steps of finishing. Either may be empty."""

    lines: Lines


@dataclass(frozen=True, slots=True)
class Table:
    """The first column names its row; the columns in `right` hold numbers, and stand at their right."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...] = ()
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Key:
    """Symbol as rows write it, the colour's name, its shade."""

    colours: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Rows:
    """Label and words of every row, each to be ticked off."""

    lines: Lines


@dataclass(frozen=True, slots=True)
class Pictures:
    """Drawings that belong beside one another."""

    pictures: tuple[Picture, ...]


Block = Prose | Glossary | Table | Key | Rows | Pictures


@dataclass(frozen=True, slots=True)
class Part:
    """A heading of level 1 or 2 and what stands under it. `fresh`: it begins on a page of its own."""

    title: str
    blocks: tuple[Block, ...] = ()
    level: int = 1
    fresh: bool = False


@dataclass(frozen=True, slots=True)
class PatternDocument:
    """`lede` is a sentence; `face` the picture on the cover; `facts` what a knitter asks first; `stamp` says which
    state this is."""

    title: str
    lede: str
    face: Picture | None
    facts: Lines
    parts: tuple[Part, ...]
    stamp: str
    imprint: Imprint = NO_IMPRINT

    @property
    def pictures(self) -> tuple[Picture, ...]:
        """All drawings in the order of the document."""
        blocks = [block for part in self.parts for block in part.blocks]
        inside = [picture for block in blocks if isinstance(block, Pictures) for picture in block.pictures]
        return tuple(([self.face] if self.face else []) + inside)

    @property
    def file_names(self) -> dict[int, str]:
        """Of each drawing, by its `id`, a name that no other has."""
        names: dict[int, str] = {}
        for picture in self.pictures:
            name, number = picture.name, 1
            while name in names.values():
                number += 1
                name = f"{picture.name}-{number}"
            names[id(picture)] = name
        return names
