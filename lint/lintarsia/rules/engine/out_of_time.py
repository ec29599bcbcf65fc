"""engine/out-of-time: the engine makes these results itself; here are their words and their level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="engine/out-of-time",
    level=Level.ERROR,
    summary="looking at this chart took longer than the time it was given",
    why=(
        "Where a run gives each chart a time, one that takes longer is ended, so that the others are still looked at. "
        "Nothing is known of it, so it must not pass for checked."
    ),
    remedy=(
        "see whether it is a chart at all: noise or a photograph takes longest; if it is, give it more with "
        "--most-seconds, or leave it out with `exclude` in the settings"
    ),
    keys={"out-of-time": "the chart was not looked at to the end"},
    sources=("common practice",),
    made_by=Maker.ENGINE,
    blinds=True,
)
