"""A whole run: charts found, checked one after another or over the cores, and gathered into one sorted report."""

import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import chain
from typing import TYPE_CHECKING

from lintarsia import __version__
from lintarsia.engine.batches import check_charts
from lintarsia.engine.checking import Checked, check_chart, shown
from lintarsia.engine.targets import Target, find_targets
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.values import dataclass
from lintarsia.result import Level, Picture, Report, Result, RuleInfo
from lintarsia.result.model import strictest
from lintarsia.result.spool import Spool
from lintarsia.rules.rulebook import Rulebook, house_rulebook
from lintarsia.settings import Settings, SettingsFinder

if TYPE_CHECKING:
    from concurrent.futures import Executor

Progress = Callable[[int, int], None]


@dataclass(frozen=True)
class Stream:
    """A chart that comes from elsewhere than a file (an editor, a pipe): its content, and the name it goes by."""

    name: str
    data: bytes


def check_paths(
    paths: Sequence[str],
    *,
    settings: Settings | None = None,
    block: Level | None = None,
    jobs: int | None = None,
    progress: Progress | None = None,
    stream: Stream | None = None,
    since: str | None = None,
    with_patterns: bool = False,
    gone: Sequence[str] = (),
    most_seconds: float | None = None,
    executor: "Executor | None" = None,
) -> Report:
    """Check every chart and pattern that `paths` name, and `stream` where there is one.

    `settings` hold everywhere when given; otherwise each chart has those found above it. `block` overrides the level
    that blocks. `jobs` is how many processes work at most: None lets the amount of work decide, and the report is the
    same for any number. `progress` is called with charts done and charts in all. `since` names a git revision, or
    `A...B` for that from which two have parted: only results that it had not are reported, wherever they stand.
    `with_patterns` checks the patterns that name one of these charts, or a file of `gone`, as well, wherever in the
    repository they lie. `most_seconds` is the time that each chart has; one that takes longer is ended, and has a
    result that says so.

    `executor` does the work where it is given: threads, processes, or those of a cluster, for which paths must lead to
    the same files (with `since`, those of this machine's temporary folder too). `jobs` then says how many things it
    does at once, which decides how finely the work is cut, and the report is the same again. It is left open.
    Raises Trouble where it cannot run, ValueError for an executor with `most_seconds`: no other's work can be ended.
    """
    if executor is not None and most_seconds is not None:
        raise ValueError("most_seconds needs processes of our own; leave out the executor")
    finder = SettingsFinder(settings)
    targets = find_targets(paths, finder, tuple(Kind))

    def check(wanted: Sequence[Target]) -> Iterable[Checked]:
        return _all(wanted, jobs, progress, most_seconds, executor)

    checked: Iterable[tuple[str, Checked]]
    if since is not None:
        from lintarsia.engine.since import check_since

        targets, answers = check_since(targets, since, finder, check, with_patterns=with_patterns)
        checked = zip((target.path for target in targets), answers, strict=True)
    else:
        if with_patterns:
            from lintarsia.engine.naming import files_naming

            targets = sorted([*targets, *files_naming(targets, finder, gone)], key=lambda target: target.path)
        checked = zip((target.path for target in targets), check(targets), strict=True)  # as they come
    holding = {target.path: target.settings for target in targets}
    if stream is not None:
        checked = _with_stream(stream, checked, holding, finder, most_seconds)
    if not all(kind_of(path).whole for path in holding):
        from lintarsia.engine.once import once_a_pattern

        checked = once_a_pattern(checked, holding)
    return gathered(checked, holding, block)


def _with_stream(
    stream: Stream,
    checked: Iterable[tuple[str, Checked]],
    holding: dict[str, Settings],
    finder: SettingsFinder,
    most_seconds: float | None,
) -> Iterable[tuple[str, Checked]]:
    """What was checked with the stream's answer, and `holding` with what holds for it: an editor's unsaved text stands
    for the file of its name."""
    full = os.path.abspath(stream.name)
    own = finder.for_folder(os.path.dirname(full))
    replaced = {path for path in holding if os.path.abspath(path) == full}
    for path in replaced:
        del holding[path]
    rest = ((path, answer) for path, answer in checked if path not in replaced)
    if own.excludes(full):
        return rest
    holding[stream.name] = own
    return chain(rest, [(stream.name, _streamed(stream, own, most_seconds))])


def _streamed(stream: Stream, own: Settings, most_seconds: float | None) -> Checked:
    if most_seconds is None:
        return check_chart(stream.name, stream.data, own)
    from lintarsia.engine.timed import Job, check_in_time

    (answer,) = check_in_time([Job(stream.name, stream.data, own)], most_seconds, 1)
    return answer


def _all(
    targets: Sequence[Target],
    jobs: int | None,
    progress: Progress | None,
    most_seconds: float | None,
    executor: "Executor | None",
) -> Iterable[Checked]:
    if len(targets) < 2 and executor is None and most_seconds is None:
        return _one_by_one(targets, progress)  # before anything is loaded that only many charts need
    from lintarsia.engine import workers
    from lintarsia.ground.pools import cores

    if executor is not None:
        return workers.check_over(executor, targets, jobs or cores(), progress)
    if most_seconds is not None:
        from lintarsia.engine.timed import Job, check_in_time

        timed = [Job(target.path, None, target.settings) for target in targets]
        return check_in_time(timed, most_seconds, jobs or cores(), progress)

    number = workers.workers_for(targets, jobs)
    if number > 1:
        return workers.check_over_cores(targets, number, progress)
    return _one_by_one(targets, progress)


def _one_by_one(targets: Sequence[Target], progress: Progress | None) -> Iterator[Checked]:
    for done, answer in enumerate(check_charts(targets), 1):
        yield answer
        if progress:
            progress(done, len(targets))


def gathered(checked: Iterable[tuple[str, Checked]], holding: dict[str, Settings], block: Level | None) -> Report:
    """The report on files checked, each with the settings that hold for it."""
    spool = Spool()
    rules: set[str] = set()
    pictures: dict[str, Picture] = {}
    levels: dict[str, Level] = {}
    elsewhere: dict[str, Level] = {}  # in files that a pattern's results stand in
    books: list[Rulebook] = []
    for path, (found, picture) in checked:
        if not found:
            continue
        name = shown(path)
        spool.add(found)
        rules.update(result.rule for result in found)
        levels[name] = block or holding[path].block
        if not kind_of(path).whole:
            elsewhere |= _elsewhere(path, holding[path], found, block)
        if picture is not None:
            pictures[name] = picture
        if holding[path].rulebook not in books:
            books.append(holding[path].rulebook)
    counts = Counter(map(kind_of, holding))
    return Report(
        charts=counts.pop(Kind.CHART, 0),
        results=spool.results(),
        pictures=pictures,
        rules=_infos(rules, books or [house_rulebook()]),
        blocking=block or strictest(held.block for held in holding.values()),
        version=__version__,
        others=dict(sorted(counts.items())),
        files=tuple(map(shown, holding)),
        blocking_of=elsewhere | levels,
        baseline_of={shown(path): held.baseline for path, held in holding.items() if held.baseline},
    )


def _elsewhere(path: str, own: Settings, found: Sequence[Result], block: Level | None) -> dict[str, Level]:
    """What blocks in the charts that results of a pattern stand in: what holds for each of them."""
    from lintarsia.engine.holding import Holding

    others = {result.file for result in found} - {shown(path)}
    holding = Holding(path, own) if others else None
    return {file: block or holding.of(file).block for file in sorted(others)} if holding else {}


def _infos(names: Iterable[str], books: Sequence[Rulebook]) -> dict[str, RuleInfo]:
    return {name: next(book for book in books if name in book).info(name) for name in sorted(names)}
