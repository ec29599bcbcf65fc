"""Images and tables made into chart files: bytes in, the text of a chart file out."""

from lintarsia.bringing.bring import Brought, bring
from lintarsia.bringing.wishes import Wishes

__all__ = ["Brought", "Wishes", "bring"]
