"""The manifest by which a phone can put a site among its apps (W3C, "Web Application Manifest", 2024)."""

import json

from lintarsia.telling.languages import ENGLISH

LONGEST = 30  # characters of a name beneath an icon, and then some


def app_json(title: str, language: str = ENGLISH) -> str:
    """The manifest of a site as JSON, for the folder of its assets; colours are those of the style sheet by day."""
    manifest = {
        "name": title,
        **({} if language == ENGLISH else {"lang": language}),
        "short_name": title[:LONGEST],
        "start_url": "../index.html",
        "scope": "../",
        "display": "minimal-ui",
        "background_color": "#f7f2e8",
        "theme_color": "#f7f2e8",
        "icons": [{"src": "mark.svg", "type": "image/svg+xml", "sizes": "any"}],
    }
    return json.dumps(manifest, ensure_ascii=False, indent=2) + "\n"
