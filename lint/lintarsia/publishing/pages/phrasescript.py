"""The script through which all others say something: what is shipped, and before it the words of a site's language."""

import json

from lintarsia.ground.resources import resource
from lintarsia.telling.catalogues import script_words
from lintarsia.telling.languages import ENGLISH

PHRASES = "phrases.js"


def phrases_script(language: str) -> str:
    """For the folder of a site's assets, or for a page that is one file."""
    script = (resource("site") / "assets" / PHRASES).read_text("utf-8")
    if language == ENGLISH:
        return script
    words = json.dumps(script_words(language), ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return f"globalThis.lintarsiaWords={words};\n{script}"
