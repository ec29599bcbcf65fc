"""What the reader's screen can show, decided once from the stream and the environment."""

from collections.abc import Mapping

from lintarsia.ground.values import dataclass

WIDEST = 80


@dataclass(frozen=True, slots=True)
class Screen:
    """`colour`: any colour at all; `true_colour`: any shade; `unicode`: more than ASCII can be printed."""

    width: int = WIDEST
    colour: bool = False
    true_colour: bool = False
    unicode: bool = True

    @property
    def pictures(self) -> bool:
        """Whether rows can be shown in their own colours."""
        return self.true_colour and self.unicode


PLAIN = Screen()


def look_at_screen(*, tty: bool, encoding: str, width: int, when: str, environ: Mapping[str, str]) -> Screen:
    """The screen behind a stream. `when` is auto, always or never; a wish beats NO_COLOR, which beats guesses.

    NO_COLOR as no-color.org has it and FORCE_COLOR as force-color.org has it: any value but the empty one. Neither
    page says which of them holds where both are set; here it is NO_COLOR, as in Python's own messages. True colour by
    the customary COLORTERM and TERM.
    """
    term = environ.get("TERM", "")
    guessed = bool(environ.get("FORCE_COLOR")) or (tty and term != "dumb")
    colour = when == "always" or (when == "auto" and guessed and not environ.get("NO_COLOR"))
    named = environ.get("COLORTERM", "").lower() in ("truecolor", "24bit") or term.endswith(("-direct", "-truecolor"))
    unicode = encoding.lower().replace("-", "").replace("_", "") in ("utf8", "utf16", "utf32")
    return Screen(max(40, min(width, WIDEST)), colour, colour and (named or when == "always"), unicode)
