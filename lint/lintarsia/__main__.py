"""`python -m lintarsia`."""

from lintarsia.cli import run

if __name__ == "__main__":
    run()
