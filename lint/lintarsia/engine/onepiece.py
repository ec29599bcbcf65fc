"""A check of a pattern narrowed to one of its pieces, one of its sizes, or both: what is found in the piece laid out,
and in the charts that it is knitted from."""

import os

from lintarsia.engine.checking import Checked, Examining, check_chart
from lintarsia.engine.holding import Holding
from lintarsia.engine.running import gathered
from lintarsia.engine.subjects.pattern import PatternSubject
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.work import About
from lintarsia.result import Level, Report
from lintarsia.settings import Settings, SettingsFinder


def check_piece(
    file: str, piece: str | None, size: str | None, settings: Settings | None = None, block: Level | None = None
) -> Report:
    """The report on the pattern in `file`, of what is about the piece in the size, None standing for all.

    Raises Trouble for a name that the pattern does not have. A pattern that cannot be read is told of as ever.
    """
    finder = SettingsFinder(settings)
    own = finder.for_folder(os.path.dirname(os.path.abspath(file)))
    subject = PatternSubject(file, None, own)
    examining = Examining(subject)
    examining.read()
    examining.judge()
    results, found = examining.results(), examining.found
    told = {(item.rule, item.finding.message) for item in found if _about(item.about, piece, size)}
    kept = tuple(result for result in results if (result.rule, result.message) in told)
    checked, held = {file: Checked(kept, None)}, {file: own}
    if subject.work is not None:
        holding = Holding(file, own)
        chosen = choose(subject.work, piece, size)
        said = dict.fromkeys(path for one in chosen for path in (one.piece.charts.get(one.size),) if path)
        for chart in (subject.work.charts[path].path for path in said):
            held[chart] = holding.of(chart)
            checked[chart] = check_chart(chart, None, held[chart])
    return gathered(sorted(checked.items()), held, block)


def _about(about: object, piece: str | None, size: str | None) -> bool:
    """Whether a finding is of a piece and size; what is of the file, or of no one piece, is of all."""
    if not isinstance(about, About):
        return True
    own = piece is None or about.piece in (None, piece)
    return own and (size is None or not about.sizes or size in about.sizes)
