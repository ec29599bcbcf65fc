"""What is shown where pages are looked at while they are made: the script that asks for news, and pages that say why
there is none."""

import json
import re
from html import escape
from pathlib import Path

from lintarsia.telling.catalogues import codes
from lintarsia.telling.languages import ENGLISH, in_english, phrase, spoken

RELOAD = "/-/reload"
_SCRIPT = """\
(async () => {
  "use strict";
  let known = null;
  const note = document.createElement("div"), words = document.createElement("p");
  note.className = "lintarsia";
  words.className = "caution";
  note.setAttribute("role", "status");
  const why = document.createElement("span");
  why.lang = "en";
  note.append(words);
  note.style.cssText = "position: fixed; inset: auto 1rem 1rem; z-index: 40; max-width: 46rem; max-height: 40vh;";
  note.style.cssText += "margin-inline: auto; overflow: auto; box-shadow: 0 4px 24px #0006";
  words.style.cssText = "white-space: pre-line; margin: 0; overflow-wrap: anywhere";
  const nothing = () => document.querySelector("[data-trouble]"); // this page has told what is wrong, and no more
  function tell(trouble) {
    note.hidden = !trouble || Boolean(nothing());
    if (note.hidden) return note.remove();
    why.textContent = trouble;
    words.replaceChildren(TOLD, "\\n", why);
    document.body.append(note);
  }
  for (;;) {
    try {
      const { version, trouble } = await (await fetch(`/-/reload?${known ?? ""}`)).json();
      if (known !== null && version !== known && (!trouble || nothing())) location.reload();
      tell(trouble);
      known = version;
    } catch { await new Promise((done) => setTimeout(done, 1500)); }
  }
})();
"""
_PAGE = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title}</title>
<style>body {{ font: 1.05rem/1.55 system-ui, sans-serif; max-width: 44rem; margin: 12vh auto; padding: 0 1.2rem; }}
h1 {{ font: 600 1.8rem/1.2 Georgia, serif; }}
pre {{ white-space: pre-wrap; overflow-wrap: anywhere; font-size: .95rem; }}</style>
<script src="/-/reload.js" defer></script>
</head>
<body>
<main>
<h1>{title}</h1>
{content}
</main>
</body>
</html>
"""


def reload_script() -> bytes:
    told = phrase("These pages are as they were, since what has changed cannot be used:")
    return _SCRIPT.replace("TOLD", json.dumps(told)).encode()


def gone_page() -> bytes:
    """For the address of a page that is not there."""
    why = phrase(
        "Its chart has been deleted or renamed, or there never was one. When it is there again, this page "
        "shows it by itself."
    )
    return _page(phrase("This page is gone"), f'<p>{why}</p>\n<p><a href="/">{phrase("All pages")}</a></p>')


def faulty_page(trouble: str) -> bytes:
    """Where no page could be made yet."""
    told = f"<pre data-trouble{in_english()}>{escape(trouble)}</pre>\n"
    return _page(phrase("No pages yet"), f"{told}<p>{phrase('When that is mended, the pages come by themselves.')}</p>")


def _page(title: str, content: str) -> bytes:
    return _PAGE.format(title=title, content=content, language=spoken()).encode()


def language_of(site: str, given: str, settings: str | None) -> str:
    """The code of the language that the pages in the folder `site` are in. Where there are none yet: the one that was
    `given`, or that the text of the `settings` names, faulty as they may be; else English."""
    made = re.search(r'<html[^>]* lang="([^"]+)"', _text(Path(site, "index.html")))
    named = re.search(r"^language: *[\"']?(\w+)", _text(Path(settings)) if settings else "", re.MULTILINE)
    found = made[1] if made else given or (named[1] if named else "")
    return found if found in codes() else ENGLISH


def _text(file: Path) -> str:
    try:
        return file.read_text("utf-8", errors="replace")
    except OSError:
        return ""
