"""Bytes to YAML nodes with places, to a schema-checked tree, to a Chart."""

from lintarsia.reading.reader import Reading, read_chart

__all__ = ["Reading", "read_chart"]
