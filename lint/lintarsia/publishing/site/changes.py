"""What has changed since revisions that went out, for the pages of a site: which charts, and since which states."""

import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from lintarsia.comparing import errata
from lintarsia.comparing.earlier import commits_since, earlier_states
from lintarsia.comparing.files import compare_paths
from lintarsia.comparing.model import Comparison, FileChange, State
from lintarsia.comparing.outline import FileChanges, outline
from lintarsia.engine.checking import shown
from lintarsia.engine.git import commit_of, git, top_of
from lintarsia.engine.naming import named_in
from lintarsia.engine.revision import Revisions
from lintarsia.ground.kinds import kind_of
from lintarsia.publishing.pages.changespage import ChangesSince, changes_page, earlier_html
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.task import Task
from lintarsia.settings import Settings
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.languages import ENGLISH


@dataclass(frozen=True, slots=True)
class Changed:
    """Of one page: its title, the sections of its page of changes, the day of the corrections, and what knitters who
    began with an earlier state are told, as HTML; of a pattern by piece and size."""

    title: str
    sections: tuple[ChangesSince, ...]
    dated: str
    earlier: str = ""
    pieces: Mapping[tuple[str, str], str] = field(default_factory=dict)

    @property
    def since(self) -> str:
        """The revision that was named first: `v1.0`."""
        return self.sections[0].revision

    @property
    def told(self) -> tuple[str, ...]:
        """What the page says of each revision, in words alone."""
        with speaking(ENGLISH):
            items = [(one.revision, part) for one in self.sections for part in outline(one.comparison)]
        return tuple(f"since {name}, {part.heading}: {_words(part)}" for name, part in items)

    def page(self, slug: str, layout: Layout) -> str:
        """The content of its page of changes."""
        return changes_page(self.title, slug, self.sections, self.dated, layout)


def _words(part: FileChanges) -> str:
    return "; ".join([part.lead, *(" ".join(filter(None, (item.words, item.means))) for item in part.items)])


def changes_of(
    tasks: Sequence[Task], paths: Sequence[str], revisions: Sequence[str], settings: Settings | None
) -> dict[str, Changed]:
    """By slug, for each page of something that has changed. Raises Trouble where git, or a revision, is not there."""
    top = top_of(_folder(paths[0]))
    compared = [
        ChangesSince(name, _day(top, name), compare_paths(paths, name, None, settings))
        for name in dict.fromkeys(revisions)
    ]
    commits, asked = commits_since(top, revisions), Revisions()
    found = {}
    for task in tasks:
        sections = tuple(_sections(task, compared))
        if sections:
            state = asked.of(task.target.path)
            dated = state.date if state is not None and state.clean else errata.today().isoformat()
            with speaking(task.language):
                earlier, pieces = _earlier(task, compared, commits), _of_pieces(task, compared)
            found[task.slug] = Changed(_title(task, sections), sections, dated, earlier, pieces)
    return found


def _sections(task: Task, compared: Sequence[ChangesSince]) -> Iterator[ChangesSince]:
    """What of each comparison is about a file and those that it names."""
    path = task.target.path
    wanted = {os.path.realpath(path), *(() if kind_of(path).whole else named_in(path, task.target.settings))}
    name = _namer(task)
    for since in compared:
        files = [file for file in since.comparison.files if os.path.realpath(file.file) in wanted]
        if any(file.state is State.CHANGED for file in files):
            told = tuple(_shown(file, name, task.public) for file in files)
            yield replace(since, comparison=Comparison(since.revision, since.comparison.new, told))


def _title(task: Task, sections: Sequence[ChangesSince]) -> str:
    own = _namer(task)(shown(task.target.path))
    titles = (file.title for since in sections for file in since.comparison.files if file.file == own and file.title)
    return next(titles, os.path.basename(own))


def _of_pieces(task: Task, compared: Sequence[ChangesSince]) -> dict[tuple[str, str], str]:
    """Of a pattern's pieces: states that were compared, and none between them. A state of a piece is its pattern's and
    its charts' together, read, laid out in each size and compared: a third of a second for one charted piece in three
    sizes, so that forty states, which cost a chart nothing to speak of, take longer than all of a site."""
    found: dict[tuple[str, str], str] = {}
    for file in (file for since in compared for file in since.comparison.files if file.pattern is not None):
        if file.pattern is not None and file.file == shown(task.target.path):
            for piece in file.pattern.pieces:
                if piece.change is not None and piece.was_fingerprint is not None:
                    key = piece.piece, piece.size
                    found[key] = found.get(key, "") + earlier_html([(piece.was_fingerprint, piece.change)])
    return found


def _earlier(task: Task, compared: Sequence[ChangesSince], commits: frozenset[str]) -> str:
    """Of a chart: a pattern has no rows of its own to be at, its pieces have."""
    for file in (file for since in compared for file in since.comparison.files if file.chart is not None):
        if file.chart is not None and file.file == shown(task.target.path):
            return earlier_html(earlier_states(file.chart.now, task.target.path, commits))
    return ""


def _namer(task: Task) -> Callable[[str], str]:
    """How pages call files: where it is named by an absolute path, which tells of a disk, by the way below."""
    if not task.name:
        return lambda file: file
    below, here = os.path.dirname(task.name), os.path.dirname(task.target.path)
    return lambda file: shown(os.path.normpath(os.path.join(below, os.path.relpath(file, here))))


def _shown(file: FileChange, name: Callable[[str], str], public: bool) -> FileChange:
    """As the page tells it: pages for everybody say nothing of what the charts were looked over for."""
    told = name(file.file)
    was = told if file.was_file == file.file else file.was_file
    made = replace(file, file=told, was_file=was)
    return replace(made, new_results=(), gone_results=()) if public else made


def _folder(path: str) -> str:
    return path if os.path.isdir(path) else os.path.dirname(path) or os.curdir


def _day(top: str, revision: str) -> str:
    return git(top, "log", "-1", "--format=%cs", commit_of(top, revision)).decode("ascii").strip()
