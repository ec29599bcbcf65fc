"""Every rule by name: `group/rule-name` lives in `rules/group/rule_name.py`. It is imported when first asked for.

The list is written out rather than gathered from the folder: a rule that fails to import must be missed loudly, and a
name that is here is a promise to whoever has it in their settings.
"""

from functools import cache
from importlib import import_module

from lintarsia.ground.kinds import Kind
from lintarsia.rules.base import Rule, checks_in, rule_with

# By what they look at, so that checking a chart imports no rule on patterns. Each rule says the same in its INFO.
LISTS: dict[tuple[Kind, ...], tuple[str, ...]] = {
    (Kind.CHART,): (
        "area/single-stitch",
        "colour/look-alike",
        "colour/no-supply",
        "colour/no-yarn",
        "colour/same-name",
        "colour/same-shade",
        "colour/stitch-symbol",
        "colour/unused",
        "duplicate/no-effect",
        "float/third-colour",
        "gauge/loop",
        "gauge/proportion",
        "gauge/stitch-size",
        "gauge/yarn-weight",
        "grid/parted-row",
        "grid/stitch-count",
        "grid/unknown-colour",
        "repeat/broken-copy",
        "repeat/odd-rows",
        "round/intarsia",
        "supply/too-few",
        "supply/too-short",
        "symmetry/broken",
        "words/mismatch",
        "words/missing-row",
        "words/side",
        "words/unreadable",
        "words/wrong-count",
        "yarn/metreage",
    ),
    (Kind.PATTERN,): (
        "key/disagrees",
        "pattern/missing-chart",
        "pattern/unlisted-chart",
        "pieces/pair",
        "seam/continuity",
        "size/measurement",
        "size/motif-cut",
        "size/off-centre",
        "size/repeat-fit",
        "size/unstated",
        "yarn/too-much",
    ),
    (Kind.CHART, Kind.PATTERN): (
        "care/infant-floats",
        "ends/nowhere-to-hide",
        "float/stacked",
        "float/too-long",
        "grid/opening",
        "grid/row-slip",
        "grid/shaping-side",
        "supply/crossings",
        "supply/row-limit",
        "supply/steep-edge",
        "supply/waits",
        "yarn/too-little",
        "yarn/unused",
    ),
    (Kind.KNIT,): (
        "knit/far-gauge",
        "knit/impossible-amount",
        "knit/missing-pattern",
        "knit/no-such-place",
        "knit/other-revision",
        "knit/unknown-size",
    ),
}
BY_THE_ENGINE = (
    "baseline/stale",
    "engine/rule-failed",
    "engine/out-of-time",
    "file/schema",
    "file/unreadable",
    "release/other-content",
    "release/uncommitted",
    "knit/open-remark",
    "knit/untested-size",
    "knit/yarn-short",
    "suppress/unknown-rule",
    "suppress/unmatched",
)

KINDS: dict[str, tuple[Kind, ...]] = {name: kinds for kinds, names in LISTS.items() for name in names}
KINDS |= dict.fromkeys(BY_THE_ENGINE, ())
NAMES = tuple(sorted(KINDS))


@cache
def load(name: str) -> Rule:
    """The rule of that name. Raises KeyError for a name that is not in NAMES, and whatever its import raises."""
    if name not in NAMES:
        raise KeyError(name)
    module = import_module("lintarsia.rules." + name.replace("/", ".").replace("-", "_"))
    return rule_with(module.INFO, module.Options, checks_in(module))
