"""The patterns that a chart is a part of, as its page names them."""

from collections.abc import Sequence

from lintarsia.drawing.svg import escape
from lintarsia.publishing.pages.layout import Layout
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.languages import phrase


def part_of(patterns: Sequence[tuple[str, str]], layout: Layout, page: str) -> str:
    """`Part of Pear cushion`, each with its link; "" where no pattern has the chart. They are slugs and titles."""
    links = [f'<a href="{layout.link(page, layout.chart(slug))}">{escape(title)}</a>' for slug, title in patterns]
    return f'<p class="part-of">{phrase("Part of {patterns}", patterns=one_and_all(links))}</p>' if links else ""
