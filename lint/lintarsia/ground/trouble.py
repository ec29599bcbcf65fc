"""What a command says when it cannot run at all (exit status 2), and how it guesses at a slip of the pen."""

from collections.abc import Iterable


class Trouble(Exception):  # noqa: N818 - the user is told of it, and it is no error of ours
    """The command cannot run: usage, settings, a path that is not there. The text is for the user, whole and final."""


def did_you_mean(given: str, known: Iterable[str]) -> str:
    """`"; did you mean 'colour/unused'?"`, or "" where nothing known is near."""
    from difflib import get_close_matches

    near = get_close_matches(given, list(known), n=1, cutoff=0.6)
    return f"; did you mean {near[0]!r}?" if near else ""
