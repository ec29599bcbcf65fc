"""A regular file read whole and no further than a bound: never a pipe to wait on, a device without end or a folder."""

import errno
import os
import stat


def read_regular(path: str, most: int) -> bytes:
    """The file's bytes, `most` and one more at most, by which the caller sees that it is too large.

    Raises OSError, with a reason in plain words, for what is no file or cannot be read.
    """
    try:
        # O_NONBLOCK: opening a named pipe that nobody writes to would otherwise wait for ever.
        descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except ValueError:
        raise OSError(errno.EINVAL, "no file can have this name") from None
    try:
        mode = os.fstat(descriptor).st_mode
        if stat.S_ISDIR(mode):
            raise OSError(errno.EISDIR, "it is a folder; expected a file")
        if not stat.S_ISREG(mode):
            raise OSError(errno.EINVAL, "it is a pipe or a device; expected a file")
        with open(descriptor, "rb", closefd=False) as stream:
            return stream.read(most + 1)
    finally:
        os.close(descriptor)
