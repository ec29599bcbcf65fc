"""The command line, one command a file. `run` is the console entry."""


def run() -> None:
    """Run the command line and exit the process."""
    import gc

    # Searching the modules and charts of a short run for cycles costs a tenth of it and finds none worth the search.
    # Commands that run long turn it on again (lintarsia.cli.main).
    gc.disable()
    from lintarsia.cli.main import main

    raise SystemExit(main())
