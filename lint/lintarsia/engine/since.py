"""What a check says that it did not say of a git revision: both are checked, and their results compared."""

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from itertools import chain

from lintarsia.engine.checking import Checked
from lintarsia.engine.differing import changed_lines
from lintarsia.engine.git import top_of
from lintarsia.engine.past import Past
from lintarsia.engine.targets import Target
from lintarsia.ground.scratch import scratch_folder
from lintarsia.result import Result
from lintarsia.rules.engine.out_of_time import INFO
from lintarsia.settings import SettingsFinder

Check = Callable[[Sequence[Target]], Iterable[Checked]]
OUT_OF_TIME = INFO.name


def check_since(
    targets: Sequence[Target], revision: str, finder: SettingsFinder, check: Check, *, with_patterns: bool = False
) -> tuple[list[Target], Iterator[Checked]]:
    """Those of `targets` of which the check may say something new since `revision`; and what is new of each, as it
    comes, for a revision of many charts may say very much.

    `with_patterns` adds the patterns that name such a chart, or one that is gone. Raises Trouble where git cannot say.
    """
    with ExitStack() as held:
        since = Since(revision, finder, os.path.realpath(held.enter_context(scratch_folder())))
        if not targets:
            since.past("")  # a revision that git does not know is told all the same, and what is gone is known
        now = [target for target in targets if since.past(target.path).concerns(_full(target.path))]
        if with_patterns:
            from lintarsia.engine.naming import files_naming

            asked = [*targets, *files_naming(now, finder, gone=since.gone)]
            now = sorted({t.path: t for t in asked if since.past(t.path).concerns(_full(t.path))}.values())
        then = [since.past(target.path).target(_full(target.path)) for target in now]
        return now, _new(now, then, check, held.pop_all())


def _new(now: Sequence[Target], then: Sequence[Target | None], check: Check, held: ExitStack) -> Iterator[Checked]:
    """What is new of each file, both its states being checked one after the other, while the old ones are `held`."""
    with held:
        both = chain.from_iterable(zip(now, then, strict=True))
        answers = iter(check([target for target in both if target is not None]))
        for target, old in zip(now, then, strict=True):
            answer = next(answers)
            yield _narrowed(target, answer, old, next(answers) if old is not None else None)


class Since:
    """The repositories that charts lie in, each as it was at `revision`."""

    def __init__(self, revision: str, finder: SettingsFinder, scratch: str) -> None:
        self._revision, self._finder, self._scratch = revision, finder, scratch
        self._tops: dict[str, str] = {}  # folder → top of its work tree
        self._pasts: dict[str, Past] = {}

    def past(self, path: str) -> Past:
        """That of the repository which a file lies in."""
        folder = os.path.dirname(_full(path))
        if folder not in self._tops:
            self._tops[folder] = top_of(folder)
        top = self._tops[folder]
        if top not in self._pasts:
            scratch = os.path.join(self._scratch, str(len(self._pasts)))
            os.mkdir(scratch)
            self._pasts[top] = Past(top, self._revision, scratch, self._finder)
        return self._pasts[top]

    @property
    def gone(self) -> list[str]:
        """The paths of the files that are no more, or no more under this name."""
        return [os.path.join(top, name) for top, past in self._pasts.items() for name in past.difference.gone]


def _full(path: str) -> str:
    """The absolute path, through the folders' links but not through the file's own."""
    return os.path.join(os.path.realpath(os.path.dirname(os.path.abspath(path))), os.path.basename(path))


def _narrowed(target: Target, answer: Checked, old: Target | None, before: Checked | None) -> Checked:
    if old is None or before is None or not before.results:
        return answer
    if any(result.rule == OUT_OF_TIME for result in answer.results):
        return answer  # nobody knows what is new of it, whatever was known before
    results = tuple(new_results(answer.results, before.results, lambda: changed_lines(old.path, target.path)))
    return Checked(results, answer.picture if results else None)


def new_results(
    now: Sequence[Result], before: Sequence[Result], lines: Callable[[], Sequence[tuple[int, int]]]
) -> list[Result]:
    """Results of `now` with a mark that none of `before` has.

    The marks of like results in a file count them up, so that a new one low in the chart has an old one's mark and the
    topmost of them the new mark. So of these all that stand in changed lines are told as well.
    """
    marks = {_mark(result) for result in before}
    new = [result for result in now if _mark(result) not in marks]
    more = {_kind(result) for result in new} & {_kind(result) for result in before}
    if not more:
        return new
    changed = lines()
    fresh = set(map(id, new))
    return [r for r in now if id(r) in fresh or (_kind(r) in more and _stands_in(r, changed))]


def _mark(result: Result) -> tuple[object, ...]:
    """What was accepted and no longer is, or has become graver, is new as well."""
    return (result.rule, result.fingerprint, result.level, result.suppressed)


def _kind(result: Result) -> tuple[object, ...]:
    """The same for a result and those that it is like."""
    return (result.rule, result.alike or result.fingerprint, result.level, result.suppressed)


def _stands_in(result: Result, lines: Iterable[tuple[int, int]]) -> bool:
    return any(first <= result.region.end_line and result.region.line <= last for first, last in lines)
