"""The file around an HTML document: its styles, by day, by lamplight and on paper."""

from html import escape

from lintarsia.drawing.shades import readable
from lintarsia.ground.resources import resource
from lintarsia.publishing.imprint import DAY, LAMP, Imprint

ACCENT = "#8a3b2a"


def sheet(title: str, body: str, imprint: Imprint) -> str:
    """A whole file around a body that is HTML already. `title` is plain text."""
    accent = imprint.designer.accent or ACCENT
    style = (resource("site") / "document" / "pattern.css").read_text(encoding="utf-8") + (
        f":root {{ --accent: {readable(accent, DAY)} }}\n"
        f"@media screen and (prefers-color-scheme: dark) {{ :root {{ --accent: {readable(accent, LAMP)} }} }}\n"
    )
    policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>\n{style}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )
