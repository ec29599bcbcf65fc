"""Pieces of work each within a time. No clock is asserted: what never ends is ended, all else is as without a time."""

import os
import time
from pathlib import Path

import pytest

from folding import slow
from lintarsia.ground.deadlines import within


def squared(number: int) -> int:
    while number == 7:
        time.sleep(0.01)
    if number == 13:
        os._exit(1)
    return number * number


def late(number: int) -> int:
    return -number


@pytest.mark.parametrize("number", [2, *slow(1, 5)])  # two seconds of waiting each
def test_answers_come_in_the_order_of_the_pieces_and_late_ones_are_told(number: int) -> None:
    assert list(within(2, squared, late, [3, 7, 0, 5], number)) == [9, -7, 0, 25]


def test_nothing_to_do() -> None:
    assert list(within(2, squared, late, [])) == []


def test_a_process_that_dies_is_told() -> None:
    with pytest.raises(RuntimeError, match=r"^a process that was looking at a chart died$"):
        list(within(60, squared, late, [2, 13]))


def test_whoever_has_enough_leaves_no_process_behind() -> None:
    """The piece that never ends is begun, and ended with the others."""
    answers = within(600, os_id, late, [1, 2, 3, 4], 2)
    process = next(answers)
    answers.close()
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)


def os_id(number: int) -> int:
    return os.getpid()


def waits(file: str) -> int:
    Path(file).write_text(f"{os.getpid()}")
    while True:
        time.sleep(0.01)


def gone(file: str) -> int:
    """What is asked about a piece that was late: whether its process is still there."""
    try:
        os.kill(int(Path(file).read_text()), 0)
    except ProcessLookupError:
        return 0
    return 1


@pytest.mark.slow
def test_the_process_of_a_late_piece_is_gone_before_it_is_told(tmp_path: Path) -> None:
    assert list(within(1, waits, gone, [str(tmp_path / "a"), str(tmp_path / "b")])) == [0, 0]


def test_as_many_processes_as_are_asked_for_and_no_more_than_there_is_work() -> None:
    assert len(set(within(60, os_id, late, [1, 2, 3], 1))) == 1
    assert len(set(within(60, os_id, late, [1, 2], 2))) == 2
    assert os.getpid() not in set(within(60, os_id, late, [1], 5))
