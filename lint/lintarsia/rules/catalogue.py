"""Every rule by name, and the module it lives in. A module is imported when its rule is first asked for.

The list is written out rather than gathered from the folder: a rule that fails to import must be missed loudly, and a
name that is here is a promise to whoever has it in their settings.
"""

from collections.abc import Iterator
from functools import cache
from importlib import import_module

from lintarsia.rules.base import Rule

NAMES = {
    "ends/nowhere-to-hide": "ends_nowhere_to_hide",
    "engine/rule-failed": "engine_rule_failed",
    "file/schema": "file_schema",
    "file/unreadable": "file_unreadable",
    "float/stacked": "float_stacked",
    "float/third-colour": "float_third_colour",
    "grid/stitch-count": "grid_stitch_count",
    "supply/crossings": "supply_crossings",
    "supply/steep-edge": "supply_steep_edge",
    "supply/too-few": "supply_too_few",
    "supply/too-short": "supply_too_short",
    "supply/waits": "supply_waits",
    "suppress/unknown-rule": "suppress_unknown_rule",
    "suppress/unmatched": "suppress_unmatched",
    "yarn/too-little": "yarn_too_little",
}


@cache
def load(name: str) -> Rule:
    """The rule of that name. Raises KeyError for a name that is not in NAMES, and whatever its import raises."""
    module = import_module(f"lintarsia.rules.{NAMES[name]}")
    return Rule(module.INFO, module.Options, module.check)


def all_rules() -> Iterator[Rule]:
    """Every rule, by name."""
    return map(load, sorted(NAMES))
