"""The yarns at hand, as a file lists them: names and shades to choose from."""

import re
from dataclasses import dataclass
from typing import Any

from lintarsia.bringing.table import usable
from lintarsia.ground.trouble import Trouble

_SHADE = re.compile(r"#[0-9A-Fa-f]{6}")


@dataclass(frozen=True, slots=True)
class Shade:
    """A colour to choose from; `symbol` where the file is a chart, whose letters are then kept."""

    name: str
    shade: str
    symbol: str = ""


def read_palette(file: str, text: str) -> tuple[Shade, ...]:
    """Shades from YAML: `name: "#rrggbb"` lines, a list of {name, shade}, or any file with a chart's `colours:`.

    Raises Trouble where the file says something else, or nothing.
    """
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        # The base constructor keeps every scalar the text it is: `no` and `1e3` are fine names for a yarn.
        data: Any = yaml.load(text, Loader=_text_only(loader))
    except (yaml.YAMLError, ValueError, RecursionError) as failure:
        raise Trouble(f"{file!r} cannot be read as YAML ({' '.join(str(failure).split())})") from None
    if isinstance(data, dict) and isinstance(data.get("colours"), dict):
        entries = [(str(symbol), entry) for symbol, entry in data["colours"].items()]
    elif isinstance(data, dict):
        entries = [("", {"name": name, "shade": shade}) for name, shade in data.items()]
    elif isinstance(data, list):
        entries = [("", entry) for entry in data]
    else:
        entries = []
    if not entries:
        raise Trouble(f'{file!r} lists no shades; expected lines such as  Dusk blue: "#27406b"')
    return tuple(_shade(file, symbol, entry) for symbol, entry in entries)


def _shade(file: str, symbol: str, entry: object) -> Shade:
    name = entry.get("name") if isinstance(entry, dict) else None
    shade = entry.get("shade") if isinstance(entry, dict) else None
    if not isinstance(name, str) or not name or not isinstance(shade, str) or not _SHADE.fullmatch(shade):
        raise Trouble(f'{file!r}: {name or symbol or entry!r} has no shade such as "#27406b"')
    return Shade(name, shade.lower(), symbol if usable(symbol) else "")


def _text_only(loader: Any) -> Any:
    class TextLoader(loader):  # type: ignore[misc]
        yaml_implicit_resolvers: dict[str, Any] = {}  # noqa: RUF012 - the name and the form are the library's

    return TextLoader
