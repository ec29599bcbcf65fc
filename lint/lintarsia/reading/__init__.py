"""Bytes to YAML nodes with places, to a schema-checked tree, to a Chart."""
