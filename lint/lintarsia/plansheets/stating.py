"""The `supplies:` section written into a chart file's text, everything else left to the last blank as it was."""

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any, NamedTuple, cast

import yaml

from lintarsia.chart import Chart, StatedSupply
from lintarsia.chart.measure import Length
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.model import Plan
from lintarsia.telling.lengths import METRES_PER_YARD, is_imperial

_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Change(NamedTuple):
    """Replace text[start:end] by `new`."""

    start: int
    end: int
    new: str


def needed(chart: Chart, plan: Plan) -> dict[str, list[StatedSupply]]:
    """What the plan wants of each colour, in the order joined. Colours used in duplicate stitch only get one."""
    wanted: dict[str, list[StatedSupply]] = {symbol: [] for symbol in plan.colours}
    unit = "yd" if is_imperial(chart) else "m"
    for supply in plan.supplies:
        value = supply.metres / (METRES_PER_YARD if unit == "yd" else 1)
        wanted[supply.colour].append(StatedSupply(supply.holder, _length(value, unit)))
    for patch in chart.duplicate:
        stated = chart.supplies.get(patch.colour) if chart.supplies else None
        if patch.colour not in wanted and not (stated and stated.count):
            wanted[patch.colour] = [StatedSupply()]
    return {symbol: wanted[symbol] for symbol in sorted(wanted, key=chart.grid.symbols.index)}


def _length(value: float, unit: str) -> Length:
    return Length(ceil(value * 10 - 1e-9) / 10, unit)


def state_supplies(text: str, wanted: Mapping[str, Sequence[StatedSupply]]) -> str:
    """The text with its `supplies:` section as wanted. Raises Trouble where that cannot be done by adding alone."""
    try:
        root = yaml.compose(text, Loader=_Loader)
    except yaml.YAMLError:
        raise Trouble("the file is not YAML; nothing was written") from None
    if not isinstance(root, yaml.MappingNode):
        raise Trouble("the file is no mapping of keys; nothing was written")
    break_ = next((b for b in ("\r\n", "\n", "\r") if b in text), "\n")
    nodes = {key.value: (key, value) for key, value in root.value if isinstance(key, yaml.ScalarNode)}
    if "colours" not in nodes or not isinstance(nodes["colours"][1], yaml.MappingNode):
        raise Trouble("the file has no colours: section; nothing was written")
    names = {key.value: text[key.start_mark.index : key.end_mark.index] for key, _ in nodes["colours"][1].value}
    if "supplies" in nodes:
        changes = _mend(text, nodes["supplies"][1], wanted, names, break_)
    else:
        changes = [_new_section(text, root, nodes["colours"], wanted, names, break_)]
    for change in sorted(changes, reverse=True):
        text = text[: change.start] + change.new + text[change.end :]
    return text


def _new_section(
    text: str,
    root: yaml.MappingNode,
    colours: tuple[yaml.Node, yaml.Node],
    wanted: Mapping[str, Sequence[StatedSupply]],
    names: Mapping[str, str],
    break_: str,
) -> Change:
    """Right below the colours, which it counts."""
    key, value = colours[0], cast(yaml.MappingNode, colours[1])
    margin = text[key.start_mark.index - key.start_mark.column : key.start_mark.index]
    if root.flow_style:
        own = ", ".join(f"{names.get(symbol, symbol)}: {len(each)}" for symbol, each in wanted.items())
        gap = break_ + margin if not margin.strip() else " "
        at = value.end_mark.index
        return Change(at, at, f',{gap}"supplies": {{{own}}}')
    at = _line_end(text, _end(value))
    step = "  " if value.flow_style or not value.value else " " * (value.start_mark.column - key.start_mark.column)
    lines = [f"{margin}supplies:"]
    lines += [f"{margin}{step}{names.get(symbol, symbol)}: {len(each)}" for symbol, each in wanted.items()]
    return Change(at, at, "".join(break_ + line for line in lines))


def _mend(
    text: str,
    section: yaml.Node,
    wanted: Mapping[str, Sequence[StatedSupply]],
    names: Mapping[str, str],
    break_: str,
) -> list[Change]:
    if not isinstance(section, yaml.MappingNode):
        raise Trouble("supplies: is no mapping of colours; nothing was written")
    stated = {key.value: value for key, value in section.value}
    changes = [
        change
        for symbol, each in wanted.items()
        if symbol in stated
        for change in _mend_colour(text, symbol, stated[symbol], each, break_)
    ]
    missing = [(names.get(symbol, symbol), len(each)) for symbol, each in wanted.items() if symbol not in stated]
    if not missing:
        return changes
    if section.flow_style:
        own = ", ".join(f"{name}: {count}" for name, count in missing)
        at = section.value[-1][1].end_mark.index if section.value else section.start_mark.index + 1
        return [*changes, Change(at, at, f", {own}" if section.value else own)]
    at = _line_end(text, _end(section))
    margin = " " * section.start_mark.column
    return [*changes, Change(at, at, "".join(f"{break_}{margin}{name}: {count}" for name, count in missing))]


def _mend_colour(text: str, symbol: str, node: yaml.Node, each: Sequence[StatedSupply], break_: str) -> list[Change]:
    if isinstance(node, yaml.SequenceNode):
        return _mend_list(text, symbol, node, each, break_)
    if not isinstance(node, yaml.ScalarNode):
        raise Trouble(f"supplies: {symbol} is neither a count nor a list; nothing was written")
    if node.value == str(len(each)):
        return []
    return [Change(node.start_mark.index, node.end_mark.index, str(len(each)))]


def _mend_list(
    text: str, symbol: str, node: yaml.SequenceNode, each: Sequence[StatedSupply], break_: str
) -> list[Change]:
    """Add what the list lacks; cut what it has too much, unless a comment would go with it."""
    have = len(node.value)
    if have > len(each) > 0:
        start, end = _end(node.value[len(each) - 1]), _end(node.value[-1])
        if "#" in text[start:end]:
            raise Trouble(f"supplies: {symbol} lists {have} and the plan needs {len(each)}; a comment is in the way")
        return [Change(start, end, "")]
    more = [f"{{holder: {supply.holder}, length: {supply.length}}}" for supply in each[have:]]
    if not more:
        return []
    if node.flow_style:
        at = node.value[-1].end_mark.index if node.value else node.start_mark.index + 1
        return [Change(at, at, (", " if node.value else "") + ", ".join(more))]
    at = _line_end(text, _end(node))
    margin = " " * node.start_mark.column
    return [Change(at, at, "".join(f"{break_}{margin}- {item}" for item in more))]


def _end(node: Any) -> int:
    """Where a node's own text ends. YAML counts the comments below a block to the block; we do not."""
    while not isinstance(node, yaml.ScalarNode) and not node.flow_style and node.value:
        last = node.value[-1]
        node = last[1] if isinstance(node, yaml.MappingNode) else last
    return int(node.end_mark.index)


def _line_end(text: str, at: int) -> int:
    """The end of the line that `at` stands in, before its line break."""
    ends = [end for end in (text.find("\n", at), text.find("\r", at)) if end >= 0]
    return min(ends, default=len(text))
