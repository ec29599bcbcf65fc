"""The asterisks and daggers that are open in a row: where each began, and where it ended if it did."""


class Stars:
    """By mark, since `*` and `**` stand for two repeats, one inside the other."""

    def __init__(self) -> None:
        self._open: dict[str, tuple[int, int | None]] = {}

    def __contains__(self, mark: str) -> bool:
        return mark in self._open

    @property
    def last(self) -> str:
        """The mark that was opened last; "" where none is open."""
        return next(reversed(self._open), "")

    def closes(self, mark: str) -> bool:
        """Whether one more such mark ends the repeat that the first began."""
        return mark in self._open and self._open[mark][1] is None

    def open(self, mark: str, at: int) -> None:
        self._open.pop(mark, None)
        self._open[mark] = at, None

    def close(self, mark: str, at: int) -> None:
        self._open[mark] = self._open[mark][0], at

    def take(self, mark: str) -> tuple[int, int | None]:
        """Where the mark's repeat began and ended; it is open no more, nor is any that began inside it."""
        start, end = self._open.pop(mark)
        self._open = {other: place for other, place in self._open.items() if place[0] < start}
        return start, end
