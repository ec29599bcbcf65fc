"""Killed between any two steps of replacing a site: what is not ours is there, the site is old or new, and the next run
clears up."""

import errno
import os
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from children import killed_at, step_count, task

from lintarsia.publishing.site import swapping
from lintarsia.publishing.site.swapping import replacing

pytestmark = pytest.mark.slow

OWN = {"CNAME": "knits.example", ".nojekyll": "", "mine/a.chart.yaml": "a chart", "charts/notes.txt": "notes"}
OLD = {"index.html": "old", "charts/a.html": "a", "charts/gone/card.png": "picture"}
NEW = {"index.html": "new", "charts/b.html": "b", "search.html": "search"}


def build(out: Path, files: dict[str, str]) -> None:
    with replacing(str(out)) as fresh:
        for name, text in files.items():
            Path(fresh, name).parent.mkdir(parents=True, exist_ok=True)
            Path(fresh, name).write_text(text)


@pytest.fixture(params=["exchanged", "one after the other", "copied"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Systems that exchange two names at once, that do not, and disks that know no second names."""

    def no_links(*_: object, **__: object) -> None:
        raise OSError(errno.EPERM, "no links here")

    if request.param == "one after the other":
        monkeypatch.setattr(swapping, "exchange", lambda one, other: False)
    if request.param == "copied":
        monkeypatch.setattr(os, "link", no_links)
    return str(request.param)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "a.html").write_text("somebody's")
    return tmp_path / "public" / "site"


def standing(out: Path) -> None:
    """An old site with things of others in it, a link that leads out among them."""
    build(out, OLD)
    for name, text in OWN.items():
        (out / name).parent.mkdir(exist_ok=True)
        (out / name).write_text(text)
    (out / "out").symlink_to("../../outside")
    (out / "empty").mkdir()


def tree(folder: Path) -> dict[str, str]:
    return {
        str(file.relative_to(folder)): os.readlink(file) if file.is_symlink() else file.read_text()
        for file in sorted(folder.rglob("*"))
        if (file.is_symlink() or file.is_file()) and file.name != ".lintarsia-site"
    }


def whole(files: dict[str, str]) -> dict[str, str]:
    return {**files, **OWN, "out": "../../outside"}


def test_before_every_step(out: Path, way: str) -> None:
    standing(out)
    steps = task(lambda: build(out, NEW), step_count(out.parent)).steps
    assert steps > 30
    met: list[dict[str, str]] = []
    for step in range(1, steps + 1):
        home = out.with_name(f"{out.name}{step}")
        standing(home)
        ended = task(partial(build, home, NEW), killed_at(step, home.parent))
        assert ended.killed, f"step {step} of {steps}"
        if way == "one after the other" and not home.exists():
            met.append({})  # the moment between two names, which the next run ends
        else:
            met.append(tree(home))
            assert met[-1] in (whole(OLD), whole(NEW)), f"step {step} of {steps}"
        assert (out.parent.parent / "outside" / "a.html").read_text() == "somebody's"
        build(home, {"index.html": "newest"})
        assert tree(home) == whole({"index.html": "newest"}), f"step {step} of {steps}"
        assert (home / "empty").is_dir()
        assert sorted(p.name for p in out.parent.iterdir() if p.name.startswith(".")) == [], f"step {step} of {steps}"
    assert met[0] == whole(OLD)
    assert met[-1] == whole(NEW)


def test_a_second_kill_while_the_next_run_clears_up(out: Path, way: str) -> None:
    """Two kills in a row, at steps that are spread over both runs."""
    standing(out)
    steps = task(lambda: build(out, NEW), step_count(out.parent)).steps
    for first in range(3, steps, 7):
        for second in range(1 + first % 5, 40, 9):
            home = out.with_name(f"{out.name}-{first}-{second}")
            standing(home)
            assert task(partial(build, home, NEW), killed_at(first, home.parent)).killed
            assert task(partial(build, home, OLD), killed_at(second, home.parent)).killed
            build(home, {"index.html": "newest"})
            assert tree(home) == whole({"index.html": "newest"}), f"steps {first} and {second}"
            assert [p.name for p in out.parent.iterdir() if p.name.startswith(".")] == [], f"steps {first} and {second}"


def test_two_builds_at_once_leave_one_site_and_all_that_is_not_theirs(out: Path) -> None:
    standing(out)
    sites = [{"index.html": f"{n}", **{f"charts/{n}-{m}.html": f"{n}" for m in range(30)}} for n in range(4)]

    def build_often(files: dict[str, str]) -> None:
        for _ in range(12):
            build(out, files)

    running = [forked(partial(build_often, files)) for files in sites]
    statuses = [os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]) for pid in running]
    assert statuses == [0] * 4
    assert tree(out) in [whole(files) for files in sites]
    assert [p.name for p in out.parent.iterdir()] == [out.name]


def forked(work: Callable[[], object]) -> int:
    pid = os.fork()
    if pid == 0:
        status = 1
        try:
            work()
            status = 0
        finally:
            os._exit(status)
    return pid
