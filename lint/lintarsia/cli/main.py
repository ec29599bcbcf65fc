"""The group of commands, each imported only when it is asked for, and the last line of defence."""

import gc
import os
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from importlib import import_module

import click

from lintarsia import __version__
from lintarsia.cli.exits import CANNOT, INTERRUPTED
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.guessing import did_you_mean

# Command → what it does, in a line. Each lives in the module of its name, as the attribute `command`.
COMMANDS: Mapping[str, str] = {
    "start": "Start a blank chart, or a pattern of several, ready to draw in.",
    "check": "Check charts and say what a knitter would stumble over.",
    "explain": "Say what a rule looks for, why, and what to do about it.",
    "plan": "Work out the supplies of a chart: how many, how long, in what order.",
    "write": "Write a chart's rows in words, or check the words against it.",
    "draw": "Draw a chart, its fabric or the paths of its yarns as a picture.",
    "bring": "Make a chart file from an image or a table.",
    "compare": "Say what has changed for the knitter between two revisions.",
    "site": "Make pages for the people who knit the charts.",
    "knits": "Gather test knits: who, which size, yarn used, what was said.",
    "release": "Gather a pattern's charts for release.",
    "completion": "Print the completion script for a shell.",
}


SHORT = frozenset({"check", "plan", "explain", "completion"})  # these end before collecting garbage would pay


class Commands(click.Group):
    """A group that knows its commands' names without importing them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        if cmd_name not in SHORT:
            gc.enable()
            gc.set_threshold(100_000, 20, 50)  # loading modules leaves none either: seldom is enough
        command = import_module(f"lintarsia.cli.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args[:1] == ["help"]:
            args = _help_asked(ctx, args[1:])
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            ctx.fail(f"there is no command {args[0]!r}{_meant(args[0])}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


def _help_asked(ctx: click.Context, rest: list[str]) -> list[str]:
    """`help check` is `check --help`; `help` alone is answered here."""
    if rest:
        return [rest[0], "--help"]
    click.echo(ctx.get_help())
    ctx.exit()


def _meant(word: str) -> str:
    """What to do about a word that is no command: a path is most likely to be checked."""
    if os.path.exists(word):
        return f"; to check it: lintarsia check {word}"
    return did_you_mean(word, [*COMMANDS, "help"])


@click.command(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(__version__, "-V", "--version", prog_name="lintarsia", message="%(prog)s %(version)s")
@click.option("--debug", is_flag=True, help="Show tracebacks when lintarsia itself fails (also: LINTARSIA_DEBUG=1).")
def group(debug: bool) -> None:
    """Check colourwork knitting charts, and work out what they leave unsaid.

    `lintarsia help COMMAND` has examples. Exit status: 0 in order, 1 something in the charts stands in the way, 2 the
    command could not run, 130 stopped by Ctrl-C, 141 whoever read the output has gone.
    """
    if debug:
        os.environ["LINTARSIA_DEBUG"] = "1"


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command and return the exit status."""
    # The arrays are small: starting a pool of threads for them costs more than it brings, and forking prefers none.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    given = None if argv is None else list(argv)
    return standing(lambda: group.main(args=given, prog_name="lintarsia", standalone_mode=False))


def standing(run: Callable[[], object]) -> int:
    """The exit status of `run`, which may return one. Nothing but a wish to debug lets a traceback out."""
    try:
        status = run()
        return status if isinstance(status, int) else 0
    except Trouble as trouble:
        return _refuse(str(trouble))
    except click.UsageError as failure:
        with suppress(OSError):
            failure.show()
        return CANNOT
    except click.ClickException as failure:
        return _refuse(failure.format_message())
    except (KeyboardInterrupt, click.Abort):
        _say("stopped")
        return INTERRUPTED
    except Exception as failure:
        if os.environ.get("LINTARSIA_DEBUG"):
            raise
        what = " ".join(f"{type(failure).__name__}: {failure}".split())
        return _refuse(f"lintarsia itself failed ({what}); please report it, with what --debug shows")


def _refuse(message: str) -> int:
    _say(f"lintarsia: {message}")
    return CANNOT


def _say(message: str) -> None:
    with suppress(OSError):  # nobody listens, or the disk is full: the exit status says it all the same
        click.echo(message, err=True)
