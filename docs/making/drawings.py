"""Drawings of the charts that a page shows, made by the same code as those of the chart pages."""

import re
from collections.abc import Callable
from html import escape
from pathlib import Path

from blocks import blocks
from lintarsia.chart import Chart
from lintarsia.drawing import TECHNIQUES, chart_svg, fabric_svg, holder_svg, line_up_svg, yarn_paths_svg
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart

EXAMPLES = Path(__file__).parents[2] / "examples"
_DESC = re.compile(r"<desc[^>]*>(.*?)</desc>", re.DOTALL)


def _chart(name: str, page: str) -> Chart:
    """A chart by its file name: the last block of the page that shows it, else one of the examples."""
    shown = [block.text for block in blocks(page) if block.name.rpartition("/")[2] == name]
    data = shown[-1].encode() if shown else (EXAMPLES / name).read_bytes()
    chart = read_chart(name, data).chart
    if chart is None:
        raise ValueError(f"{name} on this page cannot be drawn: it is not a chart")
    return chart


def _figure(svg: str, caption: str = "") -> str:
    found = _DESC.search(svg)
    told = escape(caption) or (found[1] if found else "")
    return f'<figure class="sheet"><div class="scroll">{svg}</div><figcaption>{told}</figcaption></figure>'


def _split(words: str) -> tuple[str, str]:
    name, _, caption = words.partition(" · ")
    return name.strip(), caption.strip()


def _draw_chart(words: str, page: str) -> str:
    name, caption = _split(words)
    return _figure(chart_svg(_chart(name, page), layers=(), prefix=f"c-{_plain(name)}-"), caption)


def _draw_fabric(words: str, page: str) -> str:
    name, caption = _split(words)
    return _figure(fabric_svg(_chart(name, page), prefix=f"f-{_plain(name)}-"), caption)


def _draw_paths(words: str, page: str) -> str:
    name, caption = _split(words)
    chart = _chart(name, page)
    return _figure(yarn_paths_svg(chart, make_plan(chart), prefix=f"p-{_plain(name)}-"), caption)


def _draw_line_up(words: str, page: str) -> str:
    names, caption = _split(words)
    name, row = names.split()
    chart = _chart(name, page)
    return _figure(line_up_svg(chart, make_plan(chart), int(row), prefix=f"l-{_plain(name)}-"), caption)


def _draw_technique(words: str, page: str) -> str:
    name, caption = _split(words)
    return _figure(TECHNIQUES[name](prefix=f"t-{name}-"), caption)


def _draw_holders(words: str, page: str) -> str:
    """The ways to hold a yarn, in a row: `[[holders: #27406b]]`."""
    kinds = ("loose strand", "butterfly", "bobbin", "ball")
    each = "".join(f"<li>{holder_svg(kind, words, prefix=f'h-{kind[:2]}-')}<span>{kind}</span></li>" for kind in kinds)
    return f'<ul class="holders sheet">{each}</ul>'


def _plain(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower())


PICTURES: dict[str, Callable[[str, str], str]] = {
    "chart": _draw_chart,
    "fabric": _draw_fabric,
    "paths": _draw_paths,
    "line-up": _draw_line_up,
    "technique": _draw_technique,
    "holders": _draw_holders,
}
