"""What is shown where pages are looked at while they are made: the script that asks for news, and pages that say why
there is none."""

from html import escape

RELOAD = "/-/reload"
SCRIPT = b"""\
(async () => {
  "use strict";
  let known = null;
  const note = document.createElement("div"), words = document.createElement("p");
  note.className = "lintarsia";
  words.className = "caution";
  note.setAttribute("role", "status");
  note.append(words);
  note.style.cssText = "position: fixed; inset: auto 1rem 1rem; z-index: 40; max-width: 46rem; max-height: 40vh;";
  note.style.cssText += "margin-inline: auto; overflow: auto; box-shadow: 0 4px 24px #0006";
  words.style.cssText = "white-space: pre-line; margin: 0; overflow-wrap: anywhere";
  const nothing = () => document.querySelector("[data-trouble]"); // this page has told what is wrong, and no more
  function tell(trouble) {
    note.hidden = !trouble || Boolean(nothing());
    if (note.hidden) return note.remove();
    words.textContent = `These pages are as they were, since what has changed cannot be used:\\n${trouble}`;
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
<html lang="en">
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


def gone_page() -> bytes:
    """For the address of a page that is not there."""
    told = (
        "<p>Its chart has been deleted or has another name now, or there never was one. When it is there again, this "
        'page shows it by itself.</p>\n<p><a href="/">All pages</a></p>'
    )
    return _PAGE.format(title="This page is gone", content=told).encode()


def faulty_page(trouble: str) -> bytes:
    """Where no page could be made yet."""
    told = f"<pre data-trouble>{escape(trouble)}</pre>\n<p>When that is mended, the pages come by themselves.</p>"
    return _PAGE.format(title="No pages yet", content=told).encode()
