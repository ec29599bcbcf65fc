"""What the process tells its caller."""

OK = 0  # nothing at or above the blocking level
FOUND = 1  # something is
CANNOT = 2  # the command itself could not run: usage, settings, a path that is not there
