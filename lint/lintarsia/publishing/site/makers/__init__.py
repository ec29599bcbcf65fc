"""Whatever has a page of its own in a site: `publishing/site/makers/<kind>.py` has the `MAKER` of a kind of file.

A module is imported when a file of its kind is first met. A kind without one has no page.
"""

from functools import cache
from importlib import import_module
from importlib.util import find_spec

from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.publishing.site.makers.base import Gathers, PageMaker

__all__ = ["Gathers", "PageMaker", "kinds_with_pages", "maker_of"]


def maker_of(path: str) -> type[PageMaker]:
    """What makes the page of a file, by its name."""
    return _maker(kind_of(path))


@cache
def kinds_with_pages() -> tuple[Kind, ...]:
    return tuple(kind for kind in Kind if find_spec(_module(kind)) is not None)


@cache
def _maker(kind: Kind) -> type[PageMaker]:
    made: type[PageMaker] = import_module(_module(kind)).MAKER
    return made


def _module(kind: Kind) -> str:
    return f"{__name__}.{kind}"
