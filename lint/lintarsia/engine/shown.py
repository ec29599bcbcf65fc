"""How reports name files."""

import os


def shown(path: str) -> str:
    """A path as reports print it: forward slashes, and bytes that are not UTF-8 as `\\xNN`."""
    if not path.isascii():
        path = path.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")
    return path.replace(os.sep, "/")
