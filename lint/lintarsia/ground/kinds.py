"""The kinds of file there are, told by the end of their names."""

from enum import StrEnum


class Kind(StrEnum):
    """What a file states. The value is the word that people read."""

    CHART = "chart"
    PATTERN = "pattern"


SUFFIXES = {Kind.CHART: ".chart.yaml", Kind.PATTERN: ".pattern.yaml"}


def kind_of(file: str) -> Kind:
    """What a file is by its name; a file by any other name that is checked all the same is taken for a chart."""
    return Kind.PATTERN if file.endswith(SUFFIXES[Kind.PATTERN]) else Kind.CHART
