"""The command line, one command a file. `run` is the console entry."""


def run() -> None:
    """Run the command line and exit the process."""
    import gc

    # Searching the modules and charts of a short run for cycles costs a tenth of it and finds none worth the search.
    # Commands that run long turn it on again (lintarsia.cli.main).
    gc.disable()
    open_closed_streams()
    from lintarsia.cli.main import main

    raise SystemExit(main())


def open_closed_streams() -> None:
    """Lead standard streams that the caller has closed to nowhere. Their numbers would go to the next files that are
    opened, charts and pages, and whatever is said on standard error would be written into those."""
    import os
    import sys

    for number, name, mode in ((0, "stdin", "r"), (1, "stdout", "w"), (2, "stderr", "w")):
        try:
            os.fstat(number)
        except OSError:
            opened = os.open(os.devnull, os.O_RDWR)  # the lowest number that is free, which is this one
            os.set_inheritable(opened, True)
            if number:  # without standard input `sys.stdin` stays None, so that `-` can say that there is none
                setattr(sys, name, open(opened, mode, encoding="utf-8"))  # noqa: SIM115 - for the rest of the process
