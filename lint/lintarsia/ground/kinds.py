"""The kinds of file there are, told by the end of their names: `NAME.<kind>.yaml`."""

from enum import StrEnum


class Kind(StrEnum):
    """What a file states, as its name says it. A new kind is a line here and a module in `engine/subjects`."""

    CHART = "chart"
    PATTERN = "pattern"
    KNIT = "knit"

    @property
    def suffix(self) -> str:
        """How the names of such files end."""
        return SUFFIXES[self]

    @property
    def noun(self) -> str:
        """What one such file is, in words: a log stands for the test knit that it tells of."""
        return "test knit" if self is Kind.KNIT else str(self)

    @property
    def whole(self) -> bool:
        """Whether a file of this kind states all there is to judge it by; the others name files that are read too."""
        return self is Kind.CHART


SUFFIXES = {kind: f".{kind}.yaml" for kind in Kind}
_ENDINGS = tuple(suffix for kind, suffix in SUFFIXES.items() if kind is not Kind.CHART)


def kind_of(file: str) -> Kind:
    """What a file is by its name; a file by any other name that is checked all the same is taken for a chart."""
    if not file.endswith(_ENDINGS):
        return Kind.CHART
    return next(kind for kind, suffix in SUFFIXES.items() if file.endswith(suffix))
