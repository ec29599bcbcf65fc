"""What a command says when it cannot run at all (exit status 2)."""


class Trouble(Exception):  # noqa: N818 - the user is told of it, and it is no error of ours
    """The command cannot run: usage, settings, a path that is not there. The text is for the user, whole and final."""


class SettingsTrouble(Trouble):
    """Settings that cannot be followed, in the file `file`: whoever waits for them to be mended can watch that."""

    def __init__(self, text: str, file: str | None = None) -> None:
        super().__init__(text, file)
        self.file = file

    def __str__(self) -> str:
        return str(self.args[0])
