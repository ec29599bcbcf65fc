"""A plain HTML file for reading and printing: no script, nothing fetched, light and dark."""

from html import escape

_STYLE = """
:root{color-scheme:light dark;--paper:#faf6ee;--ink:#26221c;--quiet:#6b6354;--line:#d8cfbf;--accent:#8a3b2a}
@media (prefers-color-scheme:dark){:root{--paper:#1f1a15;--ink:#efe6d6;--quiet:#b3a791;--line:#463d31;--accent:#e39a7f}}
body{margin:2rem auto;max-width:46rem;padding:0 1rem;background:var(--paper);color:var(--ink);
font:1rem/1.55 system-ui,sans-serif;font-variant-numeric:tabular-nums}
h1{font-size:1.7rem;margin:0 0 .5rem}h2{font-size:1.1rem;margin:1.8rem 0 .4rem}
dl.key{display:grid;grid-template-columns:max-content 1fr;gap:.2rem 1rem;margin:0}dl.key dt{font-weight:600}
dl.key dd{margin:0}.shade{display:inline-block;width:1em;height:1em;margin-right:.5em;border:1px solid var(--quiet);
border-radius:.2em;vertical-align:-.1em}
ol.rows{list-style:none;margin:0;padding:0}ol.rows li{padding:.35rem 0;border-bottom:1px solid var(--line);
overflow-wrap:anywhere;break-inside:avoid}
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;
border-bottom:1px solid var(--line)}
.blocked{color:var(--accent);font-weight:600}.quiet{color:var(--quiet)}
ul.tick{list-style:none;padding:0}ul.tick li{display:flex;gap:.7rem;padding:.3rem 0;break-inside:avoid}
ul.tick .box{flex:none;width:1.1rem;height:1.1rem;margin-top:.2rem;border:1.5px solid var(--ink);border-radius:.2rem}
@media print{body{margin:0;max-width:none;background:none;color:#000;font-size:10.5pt}}
""".strip()


def html_sheet(title: str, body: str) -> str:
    """A whole file around a body that is HTML already. `title` is plain text."""
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>\n{_STYLE}\n</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )
