"""Any executor may do the work, and the report is the same: threads, processes, a cluster's."""

import shutil
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import AbstractContextManager, chdir, contextmanager
from multiprocessing import get_context
from pathlib import Path

import pytest

from folding import slow
from lintarsia.engine import check_paths
from lintarsia.result import Report
from lintarsia.settings.reader import read_settings

EXAMPLES = Path(__file__).parents[2] / "examples"
CHATTY = """\
import time
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions as Options

INFO = RuleInfo("ours/loud", Level.NOTE, "a", "b", "c", {"d": "e"})


def check(work, options):
    print("looking at", work.chart.title)
    time.sleep(0.001)
    yield Finding("d", f"{work.chart.title} was looked at", work.chart.places.value("title"))
"""

Make = Callable[[], AbstractContextManager[Executor]]


@contextmanager
def threads() -> Iterator[Executor]:
    with ThreadPoolExecutor(4) as pool:
        yield pool


@contextmanager
def processes() -> Iterator[Executor]:
    with ProcessPoolExecutor(2, get_context("spawn")) as pool:
        yield pool


@contextmanager
def cluster() -> Iterator[Executor]:
    """Dask's, of two processes that are sent their work over the network."""
    from distributed import Client

    with Client(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as client:
        yield client.get_executor()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The broken examples, patterns among them, and good ones of a pattern, which come first."""
    folder = tmp_path_factory.mktemp("charts")
    for name, own in (("b", EXAMPLES / "broken"), ("a", EXAMPLES / "test-knit")):
        shutil.copytree(own, folder / name, ignore=lambda *_: ["lintarsia.yaml"])
    return folder


@pytest.fixture(scope="module")
def alone(folder: Path) -> Report:
    """What one process finds."""
    with chdir(folder):
        return check_paths(["."], jobs=1)


@pytest.mark.parametrize("make", [threads, *slow(processes, cluster)])
def test_the_report_is_the_same_from_any_executor(
    make: Make, folder: Path, alone: Report, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    assert len(alone.results) > 80
    with make() as executor:
        assert check_paths(["."], executor=executor) == alone
        seen: list[tuple[int, int]] = []
        report = check_paths(["."], executor=executor, jobs=7, progress=lambda *told: seen.append(told))
        assert report == alone  # the executor is left open for this one
    assert seen == sorted(seen)
    assert seen[-1] == (len(alone.files), len(alone.files))


@pytest.mark.slow
def test_threads_that_print_leave_standard_output_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copytree(EXAMPLES / "broken", "charts", ignore=lambda *_: ["lintarsia.yaml"])
    (tmp_path / "rule.py").write_text(CHATTY, encoding="utf-8")
    (tmp_path / "lintarsia.yaml").write_text("local-rules: [rule.py]\n", encoding="utf-8")
    settings, out = read_settings("lintarsia.yaml"), sys.stdout
    with threads() as executor:
        report = check_paths(["."], settings=settings, executor=executor, jobs=8)
    assert sys.stdout is out
    assert capsys.readouterr().out == ""
    assert report == check_paths(["."], settings=settings, jobs=1)
    assert sum(result.rule == "ours/loud" for result in report.results) > 20


def test_what_no_executor_can_do_is_refused() -> None:
    with threads() as executor, pytest.raises(ValueError, match="most_seconds"):
        check_paths(["."], executor=executor, most_seconds=1)
