"""What is asked here waits for other processes, for locks and for what they say: a slip shows in a wait without end."""

import signal
from collections.abc import Iterator
from types import FrameType

import pytest

A_MINUTE = 60.0  # nothing takes so long but what would never end
AGAIN = 5.0  # so often after that, since tidying up may wait as well


@pytest.fixture(autouse=True)
def ended_some_time() -> Iterator[None]:
    """A test that waits for ever fails, rather than keep whoever runs it waiting as long."""

    def end(number: int, frame: FrameType | None) -> None:
        pytest.fail("this waits for something that never comes")  # no OSError, which what waits for locks would take

    before = signal.signal(signal.SIGALRM, end)
    left, _ = signal.setitimer(signal.ITIMER_REAL, A_MINUTE, AGAIN)
    yield
    signal.setitimer(signal.ITIMER_REAL, left)
    signal.signal(signal.SIGALRM, before)
