"""Which slips are given up: what waits without end is, what works is not, however long it takes by the clock."""

import signal
import time
from collections.abc import Iterator
from typing import Any

import asking
import pytest


class EndedError(Exception):
    """In the place of the process's end."""


@pytest.fixture
def used(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[float]]:
    """Seconds of processor time, as the process would find them; nobody waits in the test."""

    def end(status: int) -> None:
        raise EndedError(status)

    seconds, alarms = [5.0], list[int]()
    monkeypatch.setattr(time, "process_time", lambda: seconds[-1])
    monkeypatch.setattr(asking.os, "_exit", end)
    monkeypatch.setattr(signal, "alarm", alarms.append)
    before = signal.getsignal(signal.SIGALRM)
    yield seconds
    signal.signal(signal.SIGALRM, before)


def alarm() -> None:
    handler: Any = signal.getsignal(signal.SIGALRM)
    handler(signal.SIGALRM, None)


def test_what_works_goes_on_and_what_waits_is_ended(used: list[float]) -> None:
    asking.end_if_hung(60)
    for now in (6.0, 6.5, 9.0):
        used.append(now)
        alarm()
    used.append(9.1)
    with pytest.raises(EndedError, match="3"):
        alarm()
