"""Every rule by name: `group/rule-name` lives in `rules/group/rule_name.py`. It is imported when first asked for.

The list is written out rather than gathered from the folder: a rule that fails to import must be missed loudly, and a
name that is here is a promise to whoever has it in their settings.
"""

from collections.abc import Iterator
from functools import cache
from importlib import import_module

from lintarsia.rules.base import Rule

NAMES = (
    "area/single-stitch",
    "baseline/stale",
    "care/infant-floats",
    "colour/look-alike",
    "colour/no-supply",
    "colour/no-yarn",
    "colour/same-name",
    "colour/same-shade",
    "colour/unused",
    "duplicate/no-effect",
    "ends/nowhere-to-hide",
    "engine/rule-failed",
    "file/schema",
    "file/unreadable",
    "float/stacked",
    "float/third-colour",
    "float/too-long",
    "gauge/loop",
    "gauge/proportion",
    "gauge/stitch-size",
    "gauge/yarn-weight",
    "grid/parted-row",
    "grid/shaping-side",
    "grid/stitch-count",
    "grid/unknown-colour",
    "key/disagrees",
    "pattern/missing-chart",
    "pattern/unlisted-chart",
    "pieces/pair",
    "repeat/broken-copy",
    "repeat/odd-rows",
    "round/intarsia",
    "seam/continuity",
    "size/measurement",
    "size/off-centre",
    "size/repeat-fit",
    "supply/crossings",
    "supply/row-limit",
    "supply/steep-edge",
    "supply/too-few",
    "supply/too-short",
    "supply/waits",
    "suppress/unknown-rule",
    "suppress/unmatched",
    "symmetry/broken",
    "words/mismatch",
    "words/missing-row",
    "words/side",
    "words/unreadable",
    "words/wrong-count",
    "yarn/metreage",
    "yarn/too-little",
    "yarn/unused",
)


@cache
def load(name: str) -> Rule:
    """The rule of that name. Raises KeyError for a name that is not in NAMES, and whatever its import raises."""
    if name not in NAMES:
        raise KeyError(name)
    module = import_module("lintarsia.rules." + name.replace("/", ".").replace("-", "_"))
    return Rule(module.INFO, module.Options, module.check, getattr(module, "check_pattern", None))


def all_rules() -> Iterator[Rule]:
    """Every rule, by name."""
    return map(load, sorted(NAMES))
