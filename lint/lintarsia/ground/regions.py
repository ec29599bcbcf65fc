"""Places in a text file, and edits by place."""

from typing import NamedTuple

from lintarsia.ground.values import dataclass


class Region(NamedTuple):
    """A stretch of a text file. Lines and columns count from 1, in Unicode code points; the end is exclusive."""

    line: int
    column: int
    end_line: int
    end_column: int


NOWHERE = Region(1, 1, 1, 1)


@dataclass(frozen=True, slots=True)
class Edit:
    """Replace the text of `region` (empty: insert before it) by `text`."""

    region: Region
    text: str
