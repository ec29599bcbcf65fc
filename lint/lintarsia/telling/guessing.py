"""Guesses at a slip of the pen."""

from collections.abc import Iterable

# What people write who spell or say it the other way.
_ALSO = {"color": "colour", "colors": "colours", "cast-off": "bind-off"}


def nearest(given: str, known: Iterable[str]) -> str | None:
    """The known name that looks most like `given`, if any does; capitals and underscores make no difference."""
    from difflib import get_close_matches  # only a slip pays for it

    lower = {name.lower(): name for name in known}
    guess = given.lower().replace("_", "-")
    close = get_close_matches(_ALSO.get(guess, guess), lower, n=1, cutoff=0.6)
    return lower[close[0]] if close else None


def did_you_mean(given: str, known: Iterable[str]) -> str:
    """`"; did you mean 'colour/unused'?"`, or "" where nothing known is near."""
    near = nearest(given, known)
    return f"; did you mean {near!r}?" if near else ""
