"""A counter on standard error, on a terminal, for runs long enough to wonder about."""

import sys
from collections.abc import Callable

SHOW_FROM = 200  # of whatever is counted; fewer are done before anybody wonders


def counter(doing: str, every: int) -> Callable[[int, int], None] | None:
    """Call it with what is done and the whole; it shows every `every`th, and wipes itself out at the end.

    None where nobody looks on.
    """
    if not sys.stderr.isatty():
        return None

    def show(done: int, total: int) -> None:
        if total >= SHOW_FROM and (done % every == 0 or done == total):
            end = "\r" + " " * 60 + "\r" if done == total else ""
            sys.stderr.write(f"\r{doing}: {done:,} of {total:,}{end}")
            sys.stderr.flush()

    return show
