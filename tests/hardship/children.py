"""Commands run in a child process that is killed, robbed of its rights or short of space on the way."""

import os
import resource
import signal
import sys
import tempfile
import warnings
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple, NoReturn

from lintarsia.cli.main import main

STEPS = frozenset(
    {
        "open",
        "os.rename",
        "os.remove",
        "os.chmod",
        "os.chown",
        "os.mkdir",
        "os.rmdir",
        "os.link",
        "os.symlink",
        "os.truncate",
        "os.scandir",
        "os.listdir",
    }
)
NOBODY = 65534


class Ended(NamedTuple):
    """`status` is None where a signal ended it."""

    status: int | None
    out: str
    err: str


def run(
    *argv: str, before: Callable[[], None] = lambda: None, meanwhile: Callable[[int], None] = lambda pid: None
) -> Ended:
    """Run a command in a forked child, after `before` there; `meanwhile` is given the child's number here."""
    # Pipes, since a limit on the size of files that `before` sets would hold for files that catch the output as well.
    (out, out_end), (err, err_end) = os.pipe(), os.pipe()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # Python 3.12 and later warn of threads; ours are idle
        pid = os.fork()
    if pid == 0:
        _work(argv, before, out_end, err_end)
    os.close(out_end)
    os.close(err_end)
    with ThreadPoolExecutor(2) as readers:
        texts = [readers.submit(_all_of, pipe) for pipe in (out, err)]
        meanwhile(pid)
        _, raw = os.waitpid(pid, 0)
        return Ended(os.waitstatus_to_exitcode(raw) if os.WIFEXITED(raw) else None, *(text.result() for text in texts))


def _work(argv: tuple[str, ...], before: Callable[[], None], out: int, err: int) -> NoReturn:
    status = 99
    try:
        os.dup2(out, 1)
        os.dup2(err, 2)
        os.close(out)
        os.close(err)
        sys.stdout = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115 - the child ends at once
        sys.stderr = open(2, "w", encoding="utf-8", closefd=False)  # noqa: SIM115
        before()
        status = main(argv)
        sys.stdout.flush()
        sys.stderr.flush()
    finally:
        os._exit(status)


def _all_of(pipe: int) -> str:
    with open(pipe, encoding="utf-8") as stream:
        return stream.read()


class Done(NamedTuple):
    """How a task in a child ended, and how many steps it had come to where they were counted."""

    killed: bool
    steps: int


def task(work: Callable[[], object], before: Callable[[], object]) -> Done:
    """Do `work` in a forked child, after `before` there. What it raises fails here."""
    with tempfile.TemporaryFile() as told:
        pid = os.fork()
        if pid == 0:
            status = 99
            try:
                counted = before()
                work()
                os.write(told.fileno(), str(counted() if callable(counted) else 0).encode())
                status = 0
            finally:
                os._exit(status)
        ended = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
        assert ended in (0, -signal.SIGKILL), f"the child ended with {ended}"
        told.seek(0)
        return Done(ended != 0, int(told.read() or 0))


def _hook(folder: Path, at: Callable[[int], None]) -> Callable[[], int]:
    """`at` is called with the number of each step on something below `folder`; answers how many there were."""
    inside, count = os.fspath(folder), 0

    def hook(event: str, args: tuple[Any, ...]) -> None:
        nonlocal count
        if event in STEPS and any(isinstance(arg, str) and os.path.abspath(arg).startswith(inside) for arg in args):
            count += 1
            at(count)

    sys.addaudithook(hook)
    return lambda: count


def step_count(folder: Path) -> Callable[[], Callable[[], int]]:
    """For `task`: count the steps on something below `folder`."""
    return lambda: _hook(folder, lambda number: None)


def killed_at(step: int, folder: Path) -> Callable[[], None]:
    """SIGKILL right before the `step`-th time that something below `folder` is opened, made, renamed or removed."""

    def kill(number: int) -> None:
        if number == step:
            os.kill(os.getpid(), signal.SIGKILL)

    def prepare() -> None:
        _hook(folder, kill)

    return prepare


def killed_while_writing(size: int) -> Callable[[], None]:
    """The kernel ends the child the moment a file of its own would grow beyond `size` bytes."""

    def prepare() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))

    return prepare


def as_nobody() -> None:
    """Without the superuser's rights, who reads and writes everything."""
    if os.geteuid() == 0:
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)


@contextmanager
def open_folder() -> Iterator[Path]:
    """A scratch folder that everybody may look into, which pytest's own are not."""
    with tempfile.TemporaryDirectory(prefix="hardship-") as name:
        os.chmod(name, 0o755)
        yield Path(name)
        for folder, _, _ in os.walk(name):
            os.chmod(folder, 0o755)
