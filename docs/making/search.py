"""The index that the documentation is searched in: its sections, the rules and the example charts, as a script."""

import json
import re
from html import unescape

Line = tuple[str, str, str, str]  # kind, title, text, link from the search page, as the site's search script reads them
_HEADING = re.compile(r'<h([12]) id="([^"]*)">(.*?)</h[12]>', re.DOTALL)
_LEFT_OUT = re.compile(r"<(svg|pre|figure|thead)\b.*?</\1>", re.DOTALL)


def sections(html: str, title: str, url: str) -> list[Line]:
    """A line for each section of a page, whose headings all have anchors."""
    parts = _HEADING.split(_LEFT_OUT.sub(" ", html))
    lines = []
    for level, anchor, heading, body in zip(parts[1::4], parts[2::4], parts[3::4], parts[4::4], strict=True):
        name = _plain(heading)
        lines.append(("guide", name if level == "1" else f"{title}: {name}", _plain(body), f"{url}#{anchor}"))
    return lines


def index_script(lines: list[Line]) -> str:
    """The whole index, loaded from a disk as well as from a server."""
    return f"globalThis.lintarsiaIndex={json.dumps(lines, ensure_ascii=True, separators=(',', ':'))};\n"


def _plain(html: str) -> str:
    """Text alone; tags inside a sentence leave no gap before its full stop."""
    text = re.sub(r"</?(?:a|code|em|strong|small|span)\b[^>]*>", "", html)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", text)).split())
