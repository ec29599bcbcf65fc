"""What is going on, on standard error, where it takes long enough to wonder about.

On a terminal a line that counts and wipes itself out at the end; elsewhere, in a log of CI above all, one line after
some seconds, so that a run that goes on is told from one that hangs.
"""

import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

SHOW_FROM = 200  # of whatever is counted; fewer are done before anybody wonders
SOON, LATE = 2.0, 10.0  # seconds: until the line on a terminal, and until the one elsewhere
WIDEST = 78

Progress = Callable[[int, int], None]


def counter(doing: str, every: int, *, after: float = LATE) -> Progress:
    """Call it with what is done and the whole; it shows every `every`th, or tells once after so many seconds."""
    start = time.monotonic()
    told = False

    def on_terminal(done: int, total: int) -> None:
        long = total >= SHOW_FROM or time.monotonic() - start > SOON
        if long and (done % every == 0 or done == total or total < SHOW_FROM):
            _line("" if done == total else f"{doing}: {done:,} of {total:,}")

    def elsewhere(done: int, total: int) -> None:
        nonlocal told
        seconds = time.monotonic() - start
        if not told and done < total and seconds >= after:
            told = True
            _tell(f"lintarsia: {doing}: {done:,} of {total:,} after {seconds:.0f} s")

    return on_terminal if _terminal() else elsewhere


@contextmanager
def watching(doing: str, *, late: float = LATE) -> Iterator[Progress]:
    """While a step goes on that nothing counts: how many seconds it has, told by a thread beside it.

    What is yielded may be called with what is done and the whole, where there comes to be something to count. Not for
    steps that start processes: those are best born where there is one thread.
    """
    if sys.stderr is None:
        yield lambda done, total: None
        return
    counted: list[str] = []
    ended = threading.Event()

    def count(done: int, total: int) -> None:
        counted[:] = [f"{done:,} of {total:,}, "] if done < total else []

    def tell() -> None:
        start, terminal = time.monotonic(), _terminal()
        if ended.wait(SOON if terminal else late):
            return
        if not terminal:
            _tell(f"lintarsia: still {doing} after {late:g} s")
            return
        while True:
            _line(f"{doing}: {''.join(counted)}{time.monotonic() - start:.0f} s")
            if ended.wait(1.0):
                break
        _line("")

    beside = threading.Thread(target=tell, daemon=True)
    beside.start()
    try:
        yield count
    finally:
        ended.set()
        beside.join()


def _terminal() -> bool:
    return sys.stderr is not None and sys.stderr.isatty()


def _line(text: str) -> None:
    """Over the last such line; "" wipes it out."""
    _write(f"\r{text[:WIDEST].ljust(WIDEST)}" + ("" if text else "\r"))


def _tell(text: str) -> None:
    _write(f"{text}\n")


def _write(text: str) -> None:
    if sys.stderr is not None:
        sys.stderr.write(text)
        sys.stderr.flush()
