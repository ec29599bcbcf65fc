"""What a command says when it cannot run at all (exit status 2)."""


class Trouble(Exception):  # noqa: N818 - the user is told of it, and it is no error of ours
    """The command cannot run: usage, settings, a path that is not there. The text is for the user, whole and final."""
