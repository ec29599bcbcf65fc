"""Every rule by name, and the module it lives in. A module is imported when its rule is first asked for.

The list is written out rather than gathered from the folder: a rule that fails to import must be missed loudly, and a
name that is here is a promise to whoever has it in their settings.
"""

from collections.abc import Iterator
from functools import cache
from importlib import import_module

from lintarsia.rules.base import Rule

NAMES = {
    "engine/rule-failed": "engine_rule_failed",
    "file/schema": "file_schema",
    "file/unreadable": "file_unreadable",
    "grid/stitch-count": "grid_stitch_count",
    "suppress/unknown-rule": "suppress_unknown_rule",
    "suppress/unmatched": "suppress_unmatched",
}


@cache
def load(name: str) -> Rule:
    """The rule of that name. Raises KeyError for a name that is not in NAMES, and whatever its import raises."""
    module = import_module(f"lintarsia.rules.{NAMES[name]}")
    return Rule(module.INFO, module.Options, module.check)


def all_rules() -> Iterator[Rule]:
    """Every rule, by name."""
    return map(load, sorted(NAMES))
