"""The kinds of file there are, told by the end of their names: `NAME.<kind>.yaml`."""

from enum import StrEnum


class Kind(StrEnum):
    """What a file states, as its name says it. A new kind is a line here and a module in `engine/subjects`.

    `noun` is what one such file is counted as: a log stands for the test knit that it tells of. `what` is the file
    itself, for whoever expected another. A `whole` file states all there is to judge it by; the others name files that
    are read too.
    """

    CHART = "chart", "chart", "a chart", True
    PATTERN = "pattern", "pattern", "a pattern of several charts"
    KNIT = "knit", "test knit", "the log of a test knit"

    noun: str
    what: str
    whole: bool

    def __new__(cls, value: str, noun: str = "", what: str = "", whole: bool = False) -> "Kind":
        self = str.__new__(cls, value)
        self._value_, self.noun, self.whole = value, noun or value, whole
        self.what = what or f"a {self.noun}"
        return self

    @property
    def suffix(self) -> str:
        """How the names of such files end."""
        return SUFFIXES[self]


KNITTED_FROM = (Kind.CHART, Kind.PATTERN)
"""What commands take that want something to knit from."""
SUFFIXES = {kind: f".{kind}.yaml" for kind in Kind}
_ENDINGS = tuple(suffix for kind, suffix in SUFFIXES.items() if kind is not Kind.CHART)


def kind_of(file: str) -> Kind:
    """What a file is by its name; a file by any other name that is checked all the same is taken for a chart."""
    if not file.endswith(_ENDINGS):
        return Kind.CHART
    return next(kind for kind, suffix in SUFFIXES.items() if file.endswith(suffix))
