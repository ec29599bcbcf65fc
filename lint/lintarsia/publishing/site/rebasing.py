"""Links of one page as they stand in another."""

import posixpath
import re

_LINK = re.compile(r'(?<= )(href|src)="(?![a-z][a-z0-9+.-]*:|[#/])([^"#?]*)([^"]*)"', re.IGNORECASE)


def rebased(html: str, here: str, there: str) -> str:
    """`html` of a page in the folder `here`, for one in the folder `there`, both from the root of the site."""

    def link(found: re.Match[str]) -> str:
        way = posixpath.relpath(posixpath.join(here, found[2]), there or ".")
        return f'{found[1]}="{way}{"/" if found[2].endswith("/") else ""}{found[3]}"'

    return _LINK.sub(link, html)
