"""One chart, or one piece in a size, as a single file: page, pictures, styles and scripts in one, to be sent by mail.

Nothing is fetched by it and nothing can be: its own content policy names what it holds by hashes, and allows no more.
"""

import os
import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from lintarsia.engine.targets import refuse_others
from lintarsia.ground.kinds import KNITTED_FROM
from lintarsia.ground.resources import resource
from lintarsia.ground.scratch import scratch_folder
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.imprint import Imprint
from lintarsia.publishing.pages.frame import theme_template
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.phrasescript import PHRASES, phrases_script
from lintarsia.publishing.pages.templates import fill, words
from lintarsia.publishing.site.gather import tasks
from lintarsia.publishing.site.pagefiles import CHART_SCRIPTS
from lintarsia.publishing.site.pagespecs import MINE_SCRIPTS
from lintarsia.publishing.site.publish import publish
from lintarsia.publishing.site.task import Task
from lintarsia.settings import Settings, SettingsFinder
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.counts import one_and_all, one_of
from lintarsia.telling.languages import ENGLISH, spoken

if TYPE_CHECKING:
    from lintarsia.publishing.pages.entry import Entry

STYLES = ("lintarsia.css", "answers.css", "theme.css")
FRAMED = "frame.js"  # before those that it keeps from their work
FIRST = "theme.js"  # before anything is shown, lest it flash
WORTHLESS = {"keep.js", "size.js"}  # of a site alone: there is nothing more to keep, and no other size to go to
_MIME = {".svg": "image/svg+xml", ".png": "image/png"}
_IMAGE = re.compile(r'(<img [^>]*?src=")([^"]+)(")')
_UP = re.compile(
    r'<p class="crumb">.*?</p>\n?|<nav class="sizes".*?</nav>\n?'
    r'|<p class="hint">(?:<a href="[^"#]+\.html[^"]*">[^<]*</a>(?: · )?)+</p>\n?'  # of links alone
)
_AWAY = re.compile(r' href="(?!#|https?:|mailto:|data:)[^"]*"')


def single_page(
    path: str, settings: Settings | None = None, *, piece: str | None = None, size: str | None = None,
    public: bool = False, language: str = ENGLISH,
) -> bytes:  # fmt: skip
    """The file of a chart, or of a pattern's piece in a size. Raises Trouble where there is no one such page."""
    refuse_others([path], KNITTED_FROM)
    with scratch_folder() as scratch:
        site, waiting = os.path.join(scratch, "site"), os.path.join(scratch, "pages")
        os.mkdir(waiting)
        jobs = tasks([path], SettingsFinder(settings), Layout(), site, waiting, public=public, language=language)
        if len(jobs) != 1:
            raise Trouble(f"--single makes a page of one chart or of one pattern's piece; {path!r} holds {len(jobs)}")
        (task,) = jobs
        (entry,) = publish([task])
        slug, title, about, file = _chosen(task, entry, piece, size)
        content = Path(waiting, file).read_text("utf-8")
        with speaking(language):
            return _whole(_inlined(content, task, site, slug), title, about, task, talks=not public)


def _chosen(task: Task, entry: "Entry", piece: str | None, size: str | None) -> tuple[str, str, str, str]:
    """Slug, title, what it is about, and the file of the page that is asked for."""
    if entry.figures is not None:
        return entry.slug, entry.title, entry.about, f"{task.number}.html"
    if not entry.pieces:
        lacking = "page to knit from can be made of it" if entry.kind.whole else "piece of it can be laid out"
        raise Trouble(f"{task.target.path}: no {lacking}; lintarsia check says why")
    lines = enumerate(entry.pieces)
    fit = [n for n, one in lines if piece in (None, one.piece) and (size is None or size in one.sizes)]
    if len(fit) != 1:
        told = one_and_all([f"{one.piece}, {one_of(one.sizes)}" if one.sizes else one.piece for one in entry.pieces])
        wanted = "--single makes a page of one piece in one size, named by --piece and --size"
        raise Trouble(f"{wanted}; {task.target.path} has {told}")
    one = entry.pieces[fit[0]]
    return one.slug, one.title, one.about, f"{task.number}-{fit[0]}.html"


def _inlined(content: str, task: Task, site: str, slug: str) -> str:
    """The page with its pictures in it, and without the links that lead to other pages."""
    here = os.path.dirname(os.path.join(site, task.layout.file(task.layout.chart(slug))))

    def picture(found: re.Match[str]) -> str:
        return found[1] + _data(Path(os.path.normpath(os.path.join(here, found[2])))) + found[3]

    mine = task.layout.link(task.layout.chart(slug), task.layout.mine)
    content = _UP.sub("", content.replace(f'href="{mine}"', 'href="#mine"'))
    return _AWAY.sub("", _IMAGE.sub(picture, content))


def _data(file: Path) -> str:
    return f"data:{_MIME[file.suffix]};base64,{b64encode(file.read_bytes()).decode('ascii')}"


def _whole(content: str, title: str, about: str, task: Task, *, talks: bool) -> bytes:
    folder = Path(str(resource("site"))) / "assets"
    names = dict.fromkeys((PHRASES, FRAMED, *CHART_SCRIPTS, *(MINE_SCRIPTS if talks else ())))
    scripts = [
        phrases_script(spoken()) if name == PHRASES else (folder / name).read_text("utf-8")
        for name in names
        if name not in WORTHLESS
    ]
    accent = Imprint(task.target.settings.designer).styles
    styles = [*((folder / name).read_text("utf-8") for name in STYLES), *filter(None, [accent])]
    first, answers = (folder / FIRST).read_text("utf-8"), task.target.settings.answers
    page = theme_template("single.html").render(
        **words(),
        title=title,
        about=about,
        icon=_data(folder / "mark.svg"),
        content=content,
        styles=styles,
        first=first,
        scripts=scripts,
        mine=fill("logs.html", mail=answers.mail, issue=answers.issue) if talks else "",
        style_hashes=_hashes(styles),
        script_hashes=_hashes([first, *scripts]),
    )
    return page.encode("utf-8", "xmlcharrefreplace")


def _hashes(texts: list[str]) -> str:
    """As a content policy names them (W3C, "Content Security Policy Level 3", 2024)."""
    return " ".join(f"'sha256-{b64encode(sha256(text.encode('utf-8')).digest()).decode('ascii')}'" for text in texts)
