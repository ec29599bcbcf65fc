"""Processes that help another one, and must not outlive it."""

import os
import threading


def end_with_parent() -> None:
    """For a process of a pool, once: end when the one that started it does, even if that was killed. Such a process
    would wait for work for ever, since its brothers keep open the pipe that it waits at."""
    threading.Thread(target=_wait, name="end with parent", daemon=True).start()


def _wait() -> None:
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
