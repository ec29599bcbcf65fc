"""Rows in words: written from a chart, and read back and compared with it.

Abbreviations are a house list of the usual English ones (k, p, rep, st, sts, beg, RS, WS, inc, dec), from memory.
"""

from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.row import WrittenRow
from lintarsia.written.rowwords import RowWords
from lintarsia.written.style import Style
from lintarsia.written.writer import write_rows
from lintarsia.written.written import read_written

__all__ = ["NotUnderstood", "RowWords", "Style", "WrittenRow", "read_written", "write_rows"]
