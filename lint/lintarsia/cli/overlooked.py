"""What is said of files that look like charts and are not found as such: silence would pass for a check."""

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.settings import Settings

NONE_FOUND = "no charts found in {where}"
MOST_NAMED = 10
_RIGHT = tuple(kind.suffix for kind in Kind)


def say_misnamed(paths: Sequence[str], settings: "Settings | None") -> bool:
    """Name on standard error what `paths` have under nearly a chart's name; whether a folder among them has such."""
    if all(path.endswith(_RIGHT) and os.path.isfile(path) for path in paths):
        return False
    from lintarsia.engine.misnamed import misnamed
    from lintarsia.reporting.paint import harmless
    from lintarsia.settings import SettingsFinder

    found = misnamed(paths, SettingsFinder(settings))
    outright = set(map(os.path.normpath, filter(os.path.isfile, paths)))
    for path, right in found[:MOST_NAMED]:
        kind = kind_of(right)
        left_out = "" if path in outright else " and was not looked at"
        ending = f"its name must end in {kind.suffix}, as in {right!r}"
        click.echo(f"lintarsia: {harmless(path)} looks like a {kind.noun}{left_out}; {ending}", err=True)
    if len(found) > MOST_NAMED:
        click.echo(f"lintarsia: and {len(found) - MOST_NAMED:,} more files so named", err=True)
    return any(path not in outright for path, _ in found)


def refuse_misnamed_alone(paths: Sequence[str], settings: "Settings | None") -> None:
    """Raises Trouble where `paths` have no chart, and files that look like some. Names these in any case."""
    from lintarsia.engine.targets import find_targets
    from lintarsia.settings import SettingsFinder

    if say_misnamed(paths, settings) and not find_targets(paths, SettingsFinder(settings), tuple(Kind)):
        raise Trouble(NONE_FOUND.format(where=", ".join(paths)))


def why_none(paths: Sequence[str], where: str = "") -> str:
    """In words, why there is nothing to look at in `paths`, which are all there; `where` names them otherwise."""
    from lintarsia.engine.shown import shown

    where = where or ", ".join(map(shown, paths))
    if not all(map(os.path.isfile, paths)):
        return NONE_FOUND.format(where=where)
    return f"the settings exclude {where}"  # nothing else leaves out a file that is named
