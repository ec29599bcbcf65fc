"""Files that look like charts or patterns, and whose names keep them from being found in a folder."""

import os
import re
from collections.abc import Iterator, Sequence

from lintarsia.engine.targets import files_below, tidy
from lintarsia.ground.kinds import Kind
from lintarsia.settings import SettingsFinder

# `fox.chart.yaml.txt`, `fox.chart.yml`, `FOX.CHART.YAML`, `fox.chart.yaml.yaml`: what editors, mail and old file
# systems make of the name. Copies kept on purpose (`.bak`, `.orig`, `~`) are none of them.
_NEAR = rf"(.+)\.({'|'.join(Kind)})\.ya?ml(?:\.(?:txt|text|ya?ml))?"
_RIGHT = tuple(kind.suffix for kind in Kind)


def right_name(name: str) -> str | None:
    """The name under which a file that looks like a chart or a pattern would be found; None for any other file."""
    if name.endswith(_RIGHT):
        return None
    match = re.fullmatch(_NEAR, name, re.IGNORECASE)
    if match is None:
        return None
    right = match[1] + Kind(match[2].lower()).suffix
    return None if right == name else right


def misnamed(paths: Sequence[str], finder: SettingsFinder) -> list[tuple[str, str]]:
    """(path, right name) of files named by `paths`, or in folders so named, that no check of a folder looks at; sorted.

    What the settings exclude is left out, and what they take as a chart.
    """
    return sorted({found for path in paths if path for found in _named_by(tidy(path), finder)})


def _named_by(path: str, finder: SettingsFinder) -> Iterator[tuple[str, str]]:
    if os.path.isdir(path):
        yield from _in_folder(path, finder)
        return
    right, full = right_name(os.path.basename(path)), os.path.abspath(path)
    if right is None:
        return
    settings = finder.for_folder(os.path.dirname(full))
    if not settings.takes(full) and not settings.excludes(full):
        yield path, right


def _in_folder(path: str, finder: SettingsFinder) -> Iterator[tuple[str, str]]:
    for name, entry, settings in files_below(path, finder):
        right = right_name(entry.name)
        if right is not None and not settings.takes(os.path.abspath(name)):
            yield name, right
