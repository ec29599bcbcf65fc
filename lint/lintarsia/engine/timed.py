"""Charts each within a time: one that takes longer is ended, and that is its result."""

from collections.abc import Callable, Iterator, Sequence

from lintarsia.engine.checking import Checked, check_chart
from lintarsia.engine.completing import results_on
from lintarsia.engine.subjects import Found
from lintarsia.ground.deadlines import within
from lintarsia.ground.kinds import kind_of
from lintarsia.ground.values import dataclass
from lintarsia.result import NOWHERE, Finding
from lintarsia.rules.engine.out_of_time import INFO
from lintarsia.settings import Settings

RULE = INFO.name


@dataclass(frozen=True, slots=True)
class Job:
    """A chart or pattern to look at: its file, and its content where that comes from elsewhere."""

    file: str
    data: bytes | None
    settings: Settings


def check_in_time(
    jobs: Sequence[Job], seconds: float, number: int, progress: Callable[[int, int], None] | None = None
) -> Iterator[Checked]:
    """Each chart's answer, in order, `number` at a time. A chart that takes more than `seconds` has one result."""
    answers = within(seconds, _check, lambda job: out_of_time(job.file, job.settings, seconds), jobs, number)
    for done, answer in enumerate(answers, 1):
        yield answer
        if progress:
            progress(done, len(jobs))


def _check(job: Job) -> Checked:
    return check_chart(job.file, job.data, job.settings)


def out_of_time(file: str, settings: Settings, seconds: float) -> Checked:
    """What there is to say of a file that could not be looked at in its time."""
    what = f"looking at this {kind_of(file).noun} took longer than {seconds:g} s and was ended"
    message = f"{what}; nothing else is known of it"
    found = [Found(RULE, Finding("out-of-time", message, NOWHERE, pattern="out of time"))]
    return Checked(results_on(file, found, settings), None)
