"""Patterns of several charts and sizes: reading, laying out, the release card. The rules on them are in rules/."""
