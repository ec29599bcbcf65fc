"""The rules of this package, and the rule API they are written for."""

from mill_rules import busy_edge, shouting_title

RULE_API = 1
RULES = [busy_edge, shouting_title]
