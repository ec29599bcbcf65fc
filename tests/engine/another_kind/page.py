"""What the module of a card of yarns in `publishing/site/makers/` would be."""

from lintarsia.drawing.svg import escape
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.site.makers.base import PageMaker
from lintarsia.telling.counts import count


class YarnCardMaker(PageMaker):
    """A list of the yarns."""

    def page(self) -> tuple[Entry, bytes]:
        card = self.subject.work
        if card is None:
            return self.torn()
        yarns = "".join(f"<li>{escape(yarn)}</li>\n" for yarn in card.yarns)
        entry = self.entry("Yarns for winter", f"a card of {count(len(card.yarns), 'yarn')}", names=tuple(card.yarns))
        return self.plain(entry, f"<ul>\n{yarns}</ul>")


MAKER = YarnCardMaker
