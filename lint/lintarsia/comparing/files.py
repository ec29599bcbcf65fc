"""Files compared: each read, checked and planned in both states."""

from collections.abc import Sequence

from lintarsia.chart import Chart, Reckoning
from lintarsia.chart.content import chart_fingerprint
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import Bought, Comparison, FileChange, Numbers, State
from lintarsia.comparing.pairing import WORKING_TREE, FilePair, Pairing
from lintarsia.comparing.patterns import compare_patterns
from lintarsia.engine.checking import Examining
from lintarsia.engine.differing import changed_lines
from lintarsia.engine.shown import shown
from lintarsia.engine.since import new_results
from lintarsia.engine.subjects import Subject, subject_of
from lintarsia.engine.subjects.chart import ChartSubject
from lintarsia.engine.subjects.pattern import PatternSubject
from lintarsia.engine.targets import Target
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.planner import make_plan
from lintarsia.result import Result
from lintarsia.settings import Settings, SettingsFinder
from lintarsia.telling.terms import Terms


@dataclass(frozen=True)
class FileRevision:
    """One file in one state."""

    subject: Subject
    results: tuple[Result, ...]

    @property
    def chart(self) -> Chart | None:
        return self.subject.chart if isinstance(self.subject, ChartSubject) else None

    @property
    def work(self) -> PatternWork | None:
        return self.subject.work if isinstance(self.subject, PatternSubject) else None

    @property
    def readable(self) -> bool:
        return self.chart is not None or self.work is not None

    @property
    def fingerprint(self) -> str | None:
        if self.chart is not None:
            return chart_fingerprint(self.chart)
        return None if self.work is None else pattern_fingerprint(self.work)


def compare_paths(
    paths: Sequence[str], old: str, new: str | None = None, settings: Settings | None = None
) -> Comparison:
    """The files that `paths` name, in the git revisions `old` and `new` (None: as they are); or two files.

    Raises Trouble where it cannot run.
    """
    with Pairing(paths, old, new, SettingsFinder(settings)) as pairing:
        files = tuple(compare_pair(pair) for pair in pairing.pairs())
        later = shown(paths[0]) if len(files) == 1 and files[0].was_file == shown(old) and new is None else new
        return Comparison(old, later or WORKING_TREE, files)


def compare_pair(pair: FilePair) -> FileChange:
    """One file; nothing that it holds raises."""
    if pair.same:
        return _unchanged(pair)
    was, now = _look(pair.was, pair.was_name), _look(pair.now, pair.now_name)
    name, one = pair.now_name or pair.was_name, now or was
    assert one is not None
    marks = [None if state is None else state.fingerprint for state in (was, now)]
    missing = [w for w, s in (("was", was), ("now", now)) if s is not None and not s.readable]
    fresh, gone = _results(pair, was, now)
    terms = Terms(one.subject.settings.terms)  # both states in the words in which it is published now
    return FileChange(
        file=name,
        was_file=pair.was_name or name,
        state=_state(pair, marks, was, now, fresh or gone),
        was_fingerprint=marks[0],
        now_fingerprint=marks[1],
        chart=compare_charts(was.chart, now.chart, terms) if was and now and was.chart and now.chart else None,
        pattern=compare_patterns(was.work, now.work, terms) if was and now and was.work and now.work else None,
        was_numbers=_numbers(was),
        now_numbers=_numbers(now),
        new_results=fresh,
        gone_results=gone,
        unreadable=tuple(missing),
        title=one.chart.title if one.chart else one.work.pattern.title if one.work else "",
    )


def _unchanged(pair: FilePair) -> FileChange:
    """Git knows that nothing differs, so nothing is checked or planned."""
    assert pair.now is not None
    examining = Examining(subject_of(pair.now.path, None, pair.now.settings), pair.now_name)
    examining.read()
    mark = FileRevision(examining.subject, ()).fingerprint
    state = State.SAME if pair.was_name == pair.now_name else State.MOVED
    return FileChange(pair.now_name, pair.was_name, state, mark, mark)


def _state(
    pair: FilePair, marks: Sequence[str | None], was: FileRevision | None, now: FileRevision | None, results: object
) -> State:
    if was is None:
        return State.ADDED
    if now is None:
        return State.REMOVED
    if marks[0] != marks[1] or (was.work and now.work and was.work.pattern.version != now.work.pattern.version):
        return State.CHANGED
    if None in marks and results:
        return State.CHANGED  # neither can be read, and they cannot for other reasons
    return State.SAME if pair.was_name == pair.now_name else State.MOVED


def _look(target: Target | None, name: str) -> FileRevision | None:
    if target is None:
        return None
    examining = Examining(subject_of(target.path, None, target.settings), name)
    examining.read()
    if isinstance(examining.subject, ChartSubject) and examining.subject.work is not None:
        examining.subject.work.forget_commit()  # a row that has slipped since is a change, and told as that
    examining.judge()
    return FileRevision(examining.subject, examining.results())


def _results(
    pair: FilePair, was: FileRevision | None, now: FileRevision | None
) -> tuple[tuple[Result, ...], tuple[Result, ...]]:
    if was is None or now is None or pair.was is None or pair.now is None:
        return (now.results if now else ()), ()  # what stood in a file that is gone is nobody's business any more
    old, new = pair.was.path, pair.now.path
    fresh = new_results(now.results, was.results, lambda: changed_lines(old, new))
    gone = new_results(was.results, now.results, lambda: changed_lines(new, old))
    return tuple(fresh), tuple(gone)


def _numbers(state: FileRevision | None) -> Numbers | None:
    if state is None or state.chart is None:
        return None
    settings: Reckoning = state.subject.settings.reckoning
    try:
        plan = make_plan(state.chart, settings)
        totals, needs = plan.totals, plan.yarns
    except (ValueError, Trouble):  # a grid too faulty to be planned; its results say so
        return None
    yarns = {need.yarn or need.colours[0]: Bought(need.name, need.to_buy, round(need.metres, 2)) for need in needs}
    return Numbers(totals.supplies, totals.ends, totals.most_in_a_row, totals.stitches, round(totals.metres, 2), yarns)
