"""A rule's options, from the words of a settings file to the typed fields of its Options dataclass."""

import types
from collections.abc import Mapping
from dataclasses import fields
from enum import Enum
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from lintarsia.chart.measure import Length, Mass, StitchCount, parse_length, parse_mass, parse_reach
from lintarsia.reading.shape import NUMBER

TRUE, FALSE = ("true", "yes", "on"), ("false", "no", "off")


def option_types(options: type[Any]) -> Mapping[str, Any]:
    """Option name, as written in settings (`look-alike`, not `look_alike`), to its type."""
    hints = get_type_hints(options)
    return {f.name.replace("_", "-"): hints[f.name] for f in fields(options)}


def field_name(option: str) -> str:
    """The dataclass field behind an option's written name."""
    return option.replace("-", "_")


def convert(raw: str | list[str], kind: Any) -> object:
    """What was written as the type an option declares. Raises ValueError that says what was expected.

    Text is taken as it stands, `1.10` and `007` too; a number counts the same however it is written.
    """
    origin = get_origin(kind)
    if origin in (tuple, frozenset):
        if isinstance(raw, str):
            raise ValueError(f"{raw!r} is not a list")
        return origin(convert(item, get_args(kind)[0]) for item in raw)
    if isinstance(raw, list):
        raise ValueError("a list is not expected here")
    if origin is Literal:
        return _one_of(raw, {str(value): value for value in get_args(kind)})
    if origin in (Union, types.UnionType):
        return _any_of(raw, get_args(kind))
    if isinstance(kind, type) and issubclass(kind, Enum):
        return _one_of(raw, {str(member.value): member for member in kind})
    return raw if kind is str else _SIMPLE[kind](as_number(raw))


def takes(kind: Any) -> bool:
    """Whether `convert` knows the type, so that an option of it can be stated in settings."""
    origin, inner = get_origin(kind), get_args(kind)
    if origin in (tuple, frozenset):
        return bool(inner) and takes(inner[0])
    if origin is Literal:
        return True
    if origin in (Union, types.UnionType):
        return all(part is type(None) or takes(part) for part in inner)
    return isinstance(kind, type) and (issubclass(kind, Enum) or kind in _SIMPLE)


def _any_of(raw: str, kinds: tuple[Any, ...]) -> object:
    if type(None) in kinds and raw in ("null", "none", "~"):
        return None
    if set(kinds) >= {Length, StitchCount}:
        return parse_reach(as_number(raw))
    for kind in kinds:
        if kind is not type(None):
            try:
                return convert(raw, kind)
            except ValueError as failure:
                last = failure
    raise last


def _one_of(raw: str, values: Mapping[str, object]) -> object:
    for said in (raw, as_number(raw)):
        if said in values:
            return values[said]
    raise ValueError(f"{raw!r} is not one of {', '.join(values)}")


def as_number(raw: str) -> str:
    """A number without what is written for show, `4` for `+4.0`; any other text as it is."""
    if not NUMBER.fullmatch(raw):
        return raw
    value = float(raw)
    return str(int(value) if value.is_integer() else value)


def _bool(raw: str) -> bool:
    if raw.lower() in TRUE + FALSE:
        return raw.lower() in TRUE
    raise ValueError(f"{raw!r} is neither true nor false")


def whole(raw: str) -> int:
    """A whole number of 0 or more."""
    if raw.isascii() and raw.isdigit():
        return int(raw)
    raise ValueError(f"{raw!r} is not a whole number")


def number(raw: str) -> float:
    """A finite number."""
    try:
        value = float(raw)
    except ValueError:
        value = float("nan")
    if abs(value) < float("inf"):  # false for not-a-number too
        return value
    raise ValueError(f"{raw!r} is not a number")


_SIMPLE: Mapping[Any, Any] = {
    bool: _bool,
    int: whole,
    float: number,
    str: str,
    Length: parse_length,
    Mass: parse_mass,
    StitchCount: lambda raw: StitchCount(whole(raw)),
}


def written(value: object) -> str:
    """An option's value as one would write it in a settings file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, tuple | frozenset):
        return "[" + ", ".join(map(written, value)) + "]"
    return "null" if value is None else str(value)
