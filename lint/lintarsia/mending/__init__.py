"""Fixes put into the text: chosen, applied in memory, read and checked again, and only then written."""

from lintarsia.mending.mend import Mended, mend

__all__ = ["Mended", "mend"]
