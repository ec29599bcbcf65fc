"""What is asked here waits for other processes, for locks and for what they say: a slip shows in a wait without end."""

import signal
from collections.abc import Iterator
from types import FrameType

import pytest

A_MINUTE = 60.0  # nothing takes so long but what would never end


@pytest.fixture(autouse=True)
def ended_some_time() -> Iterator[None]:
    """A test that waits for ever fails, rather than keep whoever runs it waiting as long."""

    def end(number: int, frame: FrameType | None) -> None:
        raise TimeoutError("this waits for something that never comes")

    before = signal.signal(signal.SIGALRM, end)
    left, _ = signal.setitimer(signal.ITIMER_REAL, A_MINUTE)
    yield
    signal.setitimer(signal.ITIMER_REAL, left)
    signal.signal(signal.SIGALRM, before)
