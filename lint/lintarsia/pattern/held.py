"""What holds for a chart of a pattern by the settings for its file: how a piece of it is planned and judged."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from lintarsia.chart import Reckoning
from lintarsia.result import Level


class Held(NamedTuple):
    """`rules` has the options of each rule that is on for the chart, by the rule's name; `levels` those that are
    stated."""

    reckoning: Reckoning
    rules: Mapping[str, Any]
    levels: Mapping[str, Level]
