"""In which ways a chart may be knitted, and for whom: words that its file chooses from."""

from enum import StrEnum


class Worked(StrEnum):
    FLAT = "flat"
    ROUND = "round"
    TURNED = "turned"  # a tube worked back and forth and joined at each turn


class Begins(StrEnum):
    """Where the stitches of row 1 come from."""

    CAST_ON = "cast-on"
    PICKED_UP = "picked-up"  # along an edge that is there already
    ON_NEEDLE = "on-needle"  # live stitches of another piece


class Ends(StrEnum):
    """What becomes of the stitches of the last row."""

    BOUND_OFF = "bound-off"
    LIVE = "live"  # they stay on the needle or are grafted
    DRAWN_IN = "drawn-in"  # the yarn is cut and drawn through them


class Technique(StrEnum):
    INTARSIA = "intarsia"
    STRANDED = "stranded"
    MIXED = "mixed"


class Side(StrEnum):
    RS = "RS"
    WS = "WS"

    @property
    def other(self) -> "Side":
        return Side.WS if self is Side.RS else Side.RS

    @property
    def words(self) -> str:
        return "right side" if self is Side.RS else "wrong side"


class Wearer(StrEnum):
    INFANT = "infant"
    CHILD = "child"
    ADULT = "adult"


class Symmetry(StrEnum):
    LEFT_RIGHT = "left-right"
    TOP_BOTTOM = "top-bottom"
    HALF_TURN = "half-turn"
    REPEAT = "repeat"  # the same again one repeat box further
