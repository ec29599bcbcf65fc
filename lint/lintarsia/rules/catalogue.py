"""Every rule by name, and the module it lives in. A module is imported when its rule is first asked for.

The list is written out rather than gathered from the folder: a rule that fails to import must be missed loudly, and a
name that is here is a promise to whoever has it in their settings.
"""

from collections.abc import Iterator
from functools import cache
from importlib import import_module

from lintarsia.rules.base import Rule

NAMES = {
    "area/single-stitch": "area_single_stitch",
    "baseline/stale": "baseline_stale",
    "care/infant-floats": "care_infant_floats",
    "colour/look-alike": "colour_look_alike",
    "colour/no-supply": "colour_no_supply",
    "colour/no-yarn": "colour_no_yarn",
    "colour/same-name": "colour_same_name",
    "colour/same-shade": "colour_same_shade",
    "colour/stitch-symbol": "colour_stitch_symbol",
    "colour/unused": "colour_unused",
    "duplicate/no-effect": "duplicate_no_effect",
    "ends/nowhere-to-hide": "ends_nowhere_to_hide",
    "engine/rule-failed": "engine_rule_failed",
    "file/schema": "file_schema",
    "file/unreadable": "file_unreadable",
    "float/stacked": "float_stacked",
    "float/third-colour": "float_third_colour",
    "float/too-long": "float_too_long",
    "gauge/loop": "gauge_loop",
    "gauge/proportion": "gauge_proportion",
    "gauge/stitch-size": "gauge_stitch_size",
    "gauge/yarn-weight": "gauge_yarn_weight",
    "grid/parted-row": "grid_parted_row",
    "grid/shaping-side": "grid_shaping_side",
    "grid/stitch-count": "grid_stitch_count",
    "grid/unknown-colour": "grid_unknown_colour",
    "key/disagrees": "key_disagrees",
    "pattern/missing-chart": "pattern_missing_chart",
    "pattern/unlisted-chart": "pattern_unlisted_chart",
    "pieces/pair": "pieces_pair",
    "repeat/broken-copy": "repeat_broken_copy",
    "repeat/odd-rows": "repeat_odd_rows",
    "round/intarsia": "round_intarsia",
    "seam/continuity": "seam_continuity",
    "size/measurement": "size_measurement",
    "size/off-centre": "size_off_centre",
    "size/repeat-fit": "size_repeat_fit",
    "supply/crossings": "supply_crossings",
    "supply/row-limit": "supply_row_limit",
    "supply/steep-edge": "supply_steep_edge",
    "supply/too-few": "supply_too_few",
    "supply/too-short": "supply_too_short",
    "supply/waits": "supply_waits",
    "suppress/unknown-rule": "suppress_unknown_rule",
    "suppress/unmatched": "suppress_unmatched",
    "symmetry/broken": "symmetry_broken",
    "words/mismatch": "words_mismatch",
    "words/missing-row": "words_missing_row",
    "words/side": "words_side",
    "words/unreadable": "words_unreadable",
    "words/wrong-count": "words_wrong_count",
    "yarn/metreage": "yarn_metreage",
    "yarn/too-little": "yarn_too_little",
    "yarn/unused": "yarn_unused",
}


@cache
def load(name: str) -> Rule:
    """The rule of that name. Raises KeyError for a name that is not in NAMES, and whatever its import raises."""
    module = import_module(f"lintarsia.rules.{NAMES[name]}")
    return Rule(module.INFO, module.Options, module.check, getattr(module, "check_pattern", None))


def all_rules() -> Iterator[Rule]:
    """Every rule, by name."""
    return map(load, sorted(NAMES))
