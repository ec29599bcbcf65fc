"""The page of a chart or pattern and its pictures, put where they belong."""

from collections.abc import Iterable, Mapping
from itertools import chain
from pathlib import Path

from lintarsia.ground.resources import resource
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.placing import write_all_inside, write_inside
from lintarsia.publishing.site.task import Task

FIRST_SCRIPTS = (
    "later.js", "rows.js", "view.js", "hands.js", "chart.js", "card.js", "changed.js", "bright.js", "knit.js",
    "size.js", "print.js",
)  # fmt: skip
LATE_SCRIPTS = (("rulers.js",), ("ticks.js", "logfile.js", "logs.js", "say.js", "keep.js"))
"""What a row can be knitted without, in groups that run together."""
CHART_SCRIPTS = (*FIRST_SCRIPTS, *chain.from_iterable(LATE_SCRIPTS))
"""In this order: what others ask for first, a place moves before it is gone to, and what is said is kept by what was
there before."""
PLACED = "-placed"  # ends the name of the file, aside, in which a pattern waits for pages that ask for it by a line
CHART_BUNDLE = "chart-page.js"
"""All of them as one file, in a site that is all ours: on a phone fifteen requests take longer than their texts."""
COMPILED = "//# allFunctionsCalledOnLoad\n"
"""V8 then compiles every function beside the page's own thread, while the page is read, and not one by one in the
answer to the first tap; to other browsers it is a comment: https://v8.dev/blog/explicit-compile-hints."""


def chart_bundle() -> str:
    """One that fails is told in the browser's console, and the others run all the same. The late ones wait until the
    browser has time for them."""
    late = "".join([f"lintarsia.rest(() => {{\n{_each(names)}}});\n" for names in LATE_SCRIPTS])
    return f"{COMPILED}{_each(FIRST_SCRIPTS)}{late}"


def _each(names: Iterable[str]) -> str:
    folder = resource("site") / "assets"
    texts = ((folder / name).read_text("utf-8") for name in names)
    return "".join(f"try {{\n{text}}} catch (fault) {{ reportError(fault); }}\n" for text in texts)


def card_of(entry: Entry, layout: Layout) -> str:
    """The picture for previews; a pattern borrows that of its first chart."""
    return layout.picture(entry.cover, "card.png") if entry.cover else ""


def write_pictures(task: Task, slug: str, fabric: str, files: Mapping[str, str | bytes]) -> None:
    write_inside(task.site, task.layout.fabric(slug), fabric)
    if files:
        write_all_inside(task.site, task.layout.pictures(slug), files)


def keep_page(task: Task, entry: Entry, body: bytes, which: str = "") -> None:
    """Write a page to its place, or its content to where it waits; `which` tells a piece's from its pattern's."""
    if task.frame is not None:
        layout, name = task.layout, task.layout.chart(task.slug)
        card = card_of(entry, layout) if task.cards else ""
        page = task.frame.around(
            body, layout, name, title=entry.title, about=entry.about, picture=card, scripts=(CHART_BUNDLE,)
        )
        write_inside(task.site, layout.file(name), page)
        return
    Path(task.scratch, f"{task.number}{which}.html").write_bytes(body)
