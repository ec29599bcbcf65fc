"""The command line, one command a file. `run` is the console entry."""


def run() -> None:
    """Run the command line and exit the process."""
    from lintarsia.cli.main import main

    raise SystemExit(main())
