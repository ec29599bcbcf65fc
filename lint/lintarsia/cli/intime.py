"""`--most-seconds` of the commands that take one chart: the command's work in a process that can be ended."""

import sys
from collections.abc import Callable
from functools import wraps
from importlib import import_module
from typing import Any

import click

from lintarsia.cli.exits import CANNOT, FOUND

A_MONTH = 31 * 24 * 3600


class Seconds(click.FloatRange):
    """A time that a clock can count: more than none, a month at most."""

    name = "seconds"

    def __init__(self) -> None:
        super().__init__(0, A_MONTH, min_open=True)

    def _describe_range(self) -> str:
        """In a command's help: that a month is the most is no help to anybody."""
        return "x>0"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        seconds = click.FLOAT.convert(value, param, ctx)
        if not 0 < seconds <= A_MONTH:  # nan lies in no range and beyond none
            self.fail(f"{value!r} is no time to wait; expected seconds, a month of them at most.", param, ctx)
        return seconds


def within_seconds(command: Callable[..., int]) -> Callable[..., int]:
    """Adds `--most-seconds` to a command's function, which knows nothing of it. What takes longer is ended, and status
    1 says so: something in the chart stands in the way, and nobody knows what."""
    return _within(command, FOUND)


def answered_within_seconds(command: Callable[..., int]) -> Callable[..., int]:
    """The same for a command whose status 1 is an answer, such as that something differs: without one it is 2."""
    return _within(command, CANNOT)


def _within(command: Callable[..., int], late: int) -> Callable[..., int]:
    @wraps(command)
    def run(*, most_seconds: float | None, **asked: Any) -> int:
        if most_seconds is None:
            return command(**asked)
        from lintarsia.ground.deadlines import within

        (status,) = within(most_seconds, _work, _late, [(command.__module__, asked)])
        if status is None:
            click.echo(f"lintarsia: this took longer than {most_seconds:g} s and was ended; nothing was made", err=True)
        return late if status is None else status

    return click.option(
        "--most-seconds",
        type=Seconds(),
        metavar="N",
        help=f"End the work after N seconds, with exit status {late}.",
    )(run)


def _late(work: tuple[str, dict[str, Any]]) -> int | None:
    return None


def _work(work: tuple[str, dict[str, Any]]) -> int | None:
    """In the other process: the command without a time, with this process's standard input, whatever it is."""
    from lintarsia.cli.main import standing

    module, asked = work
    command: click.Command = import_module(module).command
    assert command.callback is not None
    sys.stdin = open(0, closefd=False, encoding="utf-8")  # noqa: SIM115 - helping processes are given an empty one
    callback = command.callback
    try:
        with click.Context(command):
            return standing(lambda: callback(most_seconds=None, **asked))
    except SystemExit as ended:  # whoever read the output has gone
        return ended.code if isinstance(ended.code, int) else 0
