"""What the process tells its caller."""

OK = 0  # nothing at or above the blocking level
FOUND = 1  # something is
CANNOT = 2  # the command itself could not run: usage, settings, a path that is not there

# As shells report a process that a signal ended:
INTERRUPTED = 130  # SIGINT: the user pressed Ctrl-C
PIPE_CLOSED = 141  # SIGPIPE: whoever read the output has gone
