"""file/schema: the engine makes these results itself; here are their words and their level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="file/schema",
    level=Level.ERROR,
    summary="the file says something that the chart format does not know or does not take",
    why=(
        "What is misspelt or misplaced is not read, and a limit, a yarn or a suppression that is not read does "
        "not hold."
    ),
    remedy=("put right what the message names; an editor that knows the schema shows what belongs where"),
    keys={
        "unknown-key": "a key that the format does not have",
        "missing-key": "a key that every chart needs is not there",
        "wrong-type": "a value of another kind than the key takes",
        "wrong-value": "a value that the key does not take",
        "wrong-name": "a name or symbol that cannot stand there",
        "duplicate-key": "a key stands twice",
        "decimal-comma": "a comma stands where a number's point belongs, and ends the number",
        "merge-key": "`<<` merges keys from elsewhere",
        "alias": "* refers to another place instead of the value",
        "tag": "a YAML tag stands before a value",
        "key-not-text": "a list or mapping stands where a key belongs",
        "space-in-row": "white space inside a row of the chart",
        "space-before-row": "a row that is indented further than the others",
        "space-after-row": "white space after a row of the chart",
        "empty-row": "a blank line between the rows of the chart",
        "folded-chart": "the rows are written so that YAML joins them",
        "no-stitches": "the chart has no stitch at all",
        "gauge-impossible": "a gauge that no hand knits",
        "first-row-round": "the first round is said to be on the wrong side",
        "repeat-outside": "the repeat box reaches over the edge of the chart",
        "row-outside": "a row is named that the chart does not have",
        "stitches-outside": "stitches are named that the row does not have",
        "shaped-twice": "two keys of `shaping` shape the same edge in one row",
        "range-backwards": "the last stitch or row of a range comes before the first",
        "range-off-step": "the steps of a range pass over its last row",
        "unknown-symbol": "a symbol is named that the key does not have",
        "written-twice": "a row is written under two keys",
    },
    sources=("“JSON Schema, draft 2020-12”, json-schema.org; schema/chart.schema.json",),
    made_by=Maker.ENGINE,
    suppressible=False,
)
