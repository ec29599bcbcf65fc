"""Each chart as the overview shows it: a swatch on the wall, a row of the table.

Put together here rather than in a template: a site can have thousands of them. Every text that comes from a file is
escaped where its part is made.
"""

from lintarsia.chart import Worked
from lintarsia.drawing.svg import escape
from lintarsia.publishing.pages.entry import Entry, Figures
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.words import unparted, worked_words
from lintarsia.telling.counts import count
from lintarsia.telling.languages import counted, phrase

AT_ONCE = 4  # swatches that are seen before anybody scrolls; the pictures of others are loaded when one comes near


def swatch(number: int, entry: Entry, link: str, picture: str, file: str, *, public: bool = False) -> str:
    """An `<li>`. `number` is the place in the order of the page; `link` and `picture` lead to the chart's own; `file`
    is told beside a title that others have as well, and "" elsewhere. A `public` one tells nothing of what was found.
    """
    figures, state = entry.figures, entry.state
    if entry.cover:
        size = f' width="{figures.picture[0]}" height="{figures.picture[1]}"' if figures else ""
        later = ' loading="lazy"' if number >= AT_ONCE else ""
        frame = f'<img src="{picture}" alt=""{size}{later} decoding="async">'
    else:
        instead = phrase("cannot be read") if entry.torn else phrase(entry.kind.noun)
        frame = f'<span class="torn">{instead}</span>'
    if figures:
        facts = (
            f"{phrase('{wide} × {high} stitches', wide=figures.stitches, high=figures.rows)}, "
            f"{unparted(figures.size)}<br>"
            f"{phrase(figures.technique)}, {phrase('{length} of yarn', length=figures.yarn)}<br>"
            f"{count(figures.supplies, 'supply', 'supplies')}, {phrase('{n} at once', n=figures.fullest)}, "
            f"{phrase('{n} ends', n=figures.ends)}"
        )
    else:
        facts = escape(entry.summary or entry.file)
    told = "" if public else f'<p class="state state-{state}">{mark(state)} {entry.verdict}</p>\n'
    return (
        f'<li class="swatch{"" if public else f" is-{state}"}" data-n="{number}"{_facts(entry, public)}>\n'
        f'<span class="frame">{frame}</span>\n'
        f'<div><a class="name" href="{link}">{escape(entry.title)}{_file(file)}</a>\n'
        f'{told}<p class="facts">{facts}</p></div>\n</li>\n'
    )


def _file(name: str) -> str:
    return f" <small>{escape(name)}</small>" if name else ""


def _facts(entry: Entry, public: bool) -> str:
    """What the script sorts and filters by, as `data-` attributes."""
    tally, figures = entry.tally, entry.figures
    facts = f' data-title="{escape(entry.title)}"'
    facts += (
        ""
        if public
        else (
            f' data-file="{escape(entry.file)}" data-state="{entry.state}"'
            f' data-errors="{tally.errors}" data-warnings="{tally.warnings}" data-notes="{tally.notes}"'
        )
    )
    if not figures:
        return facts
    area = f' data-area="{figures.area}"' if figures.area else ""
    return (
        f'{facts} data-technique="{figures.technique}" data-stitches="{figures.stitches * figures.rows}"'
        f' data-supplies="{figures.supplies}" data-fullest="{figures.fullest}" data-ends="{figures.ends}"'
        f' data-metres="{figures.metres}"{area}{_word(figures)}'
    )


def _word(figures: Figures | None) -> str:
    """What a row of the chart is called, where that is not `row`."""
    return ' data-worked="round"' if figures and figures.worked == worked_words(Worked.ROUND) else ""


def _short_verdict(entry: Entry) -> str:
    """A verdict for a table, whose other columns count the results."""
    if entry.state == "blocks":
        return counted(entry.tally.blocks, "{n} blocks", "{n} block")
    return phrase("clear") if entry.state == "clear" else entry.verdict


def table_row(number: int, entry: Entry, link: str, file: str, *, public: bool = False) -> str:
    """A `<tr>`, likewise."""
    tally, figures, state = entry.tally, entry.figures, entry.state
    if figures:
        numbers = (
            f'<td class="n">{figures.stitches} × {figures.rows}</td><td class="n">{figures.size}</td>'
            f'<td>{phrase(figures.technique)}</td><td class="n">{figures.supplies}</td>'
            f'<td class="n">{figures.fullest}</td><td class="n">{figures.ends}</td><td class="n">{figures.yarn}</td>'
        )
    else:
        numbers = f'<td colspan="7">{escape(entry.summary or phrase("cannot be read"))}</td>'
    if public:
        head = f'<th scope="row"><a href="{link}">{escape(entry.title)}</a></th>'
        return f'<tr data-n="{number}">{head}{numbers}</tr>\n'
    return (
        f'<tr class="is-{state}" data-n="{number}"{_word(figures)}>'
        f'<th scope="row"><a href="{link}">{escape(entry.title)}</a>{_file(file)}</th>'
        f'<td class="state state-{state}">{mark(state)} {_short_verdict(entry)}</td>{numbers}'
        f'<td class="n">{tally.errors}</td><td class="n">{tally.warnings}</td>'
        f'<td class="n">{tally.notes}</td></tr>\n'
    )
