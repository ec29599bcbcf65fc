"""Finds the files shipped beside the code: the schemas and the site's theme.

In a wheel they lie inside the package; in a checkout (and so in an editable install,
which does not see force-included files) they are the repository's own top-level folders.
"""

from pathlib import Path

IN_CHECKOUT = {"cases": "tests/cases"}  # shipped under another name than the repository gives it


def resource(name: str) -> Path:
    """The folder or file `name` (such as "schema", "site" or "cases"), wherever this install keeps it."""
    shipped = Path(__file__).resolve().parents[1] / name  # importlib.resources would cost 10 ms to import
    if shipped.exists():
        return shipped
    checkout = Path(__file__).resolve().parents[3] / IN_CHECKOUT.get(name, name)
    if checkout.exists():
        return checkout
    raise FileNotFoundError(f"this install of lintarsia lacks its {name!r} files; install it again")
