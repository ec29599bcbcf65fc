"""Images and tables made into chart files: bytes in, the text of a chart file out."""

from lintarsia.bringing.bring import Brought, Wishes, bring

__all__ = ["Brought", "Wishes", "bring"]
