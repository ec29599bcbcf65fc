"""Bytes to YAML nodes with places, to a schema-checked tree, to a Chart."""

from lintarsia.reading.document import Document, read_document
from lintarsia.reading.reader import Reading, read_chart

__all__ = ["Document", "Reading", "read_chart", "read_document"]
