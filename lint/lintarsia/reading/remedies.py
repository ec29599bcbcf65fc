"""What to do about the slips that are made most often, with the value as it should stand wherever that can be told."""

import re
from collections.abc import Mapping
from typing import Any

from lintarsia.chart import Path
from lintarsia.telling.guessing import nearest

_DECIMAL_COMMA = re.compile(r"-?[0-9]+,[0-9]+", re.ASCII)
_BARE_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?", re.ASCII)
_MEASURE = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(\D+)", re.ASCII)
_SHADE = re.compile(r"\W*#?([0-9A-Fa-f]{6}|[0-9A-Fa-f]{3})\W*", re.ASCII)
_SHARE = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(?:%|percent|per cent|pct)?", re.ASCII | re.IGNORECASE)
_SIZE = re.compile(r"([0-9]+)\s*([km]?)i?b?", re.ASCII | re.IGNORECASE)
_CHOICES = re.compile(r"\^\(([a-z]+(?:\|[a-z]+)+)\)\$")
_RANGE = re.compile(r"\W*([1-9][0-9]*)(?:\D+([1-9][0-9]*))?\W*", re.ASCII)

# How units and the words of the format are written elsewhere. Lower case, without a full stop or a plural s.
_UNITS = {
    '"': "in", "''": "in", "″": "in", "”": "in", "“": "in", "inch": "in", "inche": "in", "in": "in",
    "yd": "yd", "yard": "yd", "m": "m", "metre": "m", "meter": "m", "mtr": "m",
    "cm": "cm", "centimetre": "cm", "centimeter": "cm", "mm": "mm", "millimetre": "mm", "millimeter": "mm",
    "g": "g", "gr": "g", "gm": "g", "gram": "g", "gramme": "g", "oz": "oz", "ounce": "oz",
}  # fmt: skip
_WORDS = {
    "baby": "infant", "newborn": "infant", "kid": "child", "children": "child", "woman": "adult", "man": "adult",
    "rows": "flat", "rounds": "round", "circular": "round", "tube": "turned", "fair isle": "stranded",
    "fatal": "error", "critical": "error", "info": "note", "hint": "note",
    "false": "off", "none": "off", "disable": "off", "ignore": "off",
    "right side": "RS", "wrong side": "WS", "rs": "RS", "ws": "WS",
}  # fmt: skip
# Craft Yarn Council, Standard Yarn Weight System: names of the categories, and of the yarns in them.
_WEIGHTS = {
    0: "lace", 1: "super fine, sock, fingering, baby", 2: "fine, sport", 3: "light, dk, light worsted",
    4: "medium, worsted, aran, afghan", 5: "bulky, chunky, craft, rug", 6: "super bulky, roving", 7: "jumbo",
}  # fmt: skip
# Where a length is always of one kind, the unit that it is given in.
_USUAL_UNIT = {"needle": "mm", "loop": "mm"}


def for_value(name: str, found: Any, wanted: Mapping[str, Any]) -> str | None:
    """What to do about `found` where the key `name` wants what the schema `wanted` says; None where nobody knows."""
    pattern = wanted.get("pattern", "")
    if found is None and "#" in pattern:
        return "put the shade in quotes: without them, # begins a comment"
    if wanted.get("title", "").startswith("the first and the last "):
        return _range(found)
    choices = _choices(wanted)
    if found is False and "off" in choices:
        return "write off"
    if not isinstance(found, str):
        return None
    if "properties" in wanted and "shade" in wanted["properties"]:
        return 'give it a name and a shade: {name: Sea, shade: "#27406b"}'
    number = {"integer", "number"} & set(_types(wanted))
    if _DECIMAL_COMMA.fullmatch(found) and number:
        return f"write a point for the decimals: {found.replace(',', '.')}"
    if number and len(found) < 16 and _BARE_NUMBER.fullmatch(found):
        return "write the number without quotes"
    if "#" in pattern:
        return _shade(found)
    if "mm|cm" in pattern or "g|oz" in pattern:
        return _measure(name, found, pattern)
    if pattern.endswith(("%$", "MiB))?$")):
        return _share(found) if pattern.endswith("%$") else _size(found)
    if name == "weight":
        return next((f"{found} is {n}" for n, names in _WEIGHTS.items() if found.lower() in names.split(", ")), None)
    items = wanted.get("items", {}).get("enum") if "array" in _types(wanted) else None
    if items:
        meant = _word(found, items)
        return f"write it as a list: [{meant}]" if meant else None
    if _types(wanted) == ("array",) and _types(wanted.get("items", {})) == ("string",):
        return f"write it as a list: [{_flow(found)}]"
    meant = _word(found, choices)
    return f"write {meant}" if meant else None


def for_missing(name: str, member: Mapping[str, Any]) -> str:
    """How to write a key that is not there."""
    examples = member.get("examples")
    if name == "chart":
        return "write `chart: |` and below it the rows, all indented alike"
    if name == "colours":
        return 'write `colours:` and below it each symbol, as in `  S: {name: Sea, shade: "#27406b"}`'
    if not examples:
        return f"add `{name}:`"
    return f"add it, such as `{name}: {_flow(examples[0])}`"


def _types(wanted: Mapping[str, Any]) -> tuple[str, ...]:
    stated = wanted.get("type", ())
    return (stated,) if isinstance(stated, str) else tuple(stated)


def _choices(wanted: Mapping[str, Any]) -> tuple[Any, ...]:
    """The words that may stand there: the schema lists them, or has them in a pattern where a group may stand too."""
    match = _CHOICES.fullmatch(wanted.get("pattern", ""))
    return tuple(match[1].split("|")) if match else tuple(wanted.get("enum", ()))


def _flow(value: Any) -> str:
    """A value as it may stand on the key's line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return f'"{value}"' if isinstance(value, str) and value[:1] in "#*&![{" else str(value)


def _range(found: Any) -> str | None:
    """`3-5` and `[3]` as the two ends that they mean."""
    if isinstance(found, list) and len(found) == 1 and isinstance(found[0], int):
        return f"write both ends: [{found[0]}, {found[0]}]"
    match = _RANGE.fullmatch(str(found)) if isinstance(found, (str, int)) else None
    return f"write [{match[1]}, {match[2] or match[1]}]" if match else None


def _shade(found: str) -> str:
    match = _SHADE.fullmatch(found)
    if not match:
        return "write # and the six digits; a colour picker in any drawing program shows them"
    digits = match[1] if len(match[1]) == 6 else "".join(2 * c for c in match[1])
    return f'write "#{digits.lower()}", in straight quotes'


def _share(found: str) -> str | None:
    match = _SHARE.fullmatch(found.strip())
    return f"write {match[1].replace(',', '.')} %" if match else None


def _size(found: str) -> str | None:
    match = _SIZE.fullmatch(found.strip())
    return f"write {match[1]} {match[2].upper()}{'iB' if match[2] else 'B'}" if match else None


def _measure(name: str, found: str, pattern: str) -> str | None:
    """A length, a mass or a count of stitches, with the unit and the point that the format wants."""
    fit = re.compile(pattern)
    plain = found.strip().replace(",", ".")
    if _BARE_NUMBER.fullmatch(plain):
        unit = "g" if "g|oz" in pattern else _USUAL_UNIT.get(name, "cm")
        return f"add the unit, such as {plain} {unit}"
    if fit.fullmatch(plain):
        return f"write a point for the decimals: {plain}"
    if match := _MEASURE.fullmatch(plain):
        word = match[2].strip().rstrip(".").lower()
        unit = _UNITS.get(word) or _UNITS.get(word.rstrip("s")) or ""
        meant = f"{match[1]} {unit}"
        if unit and fit.fullmatch(meant):
            return f"write {meant}"
    if name == "needle":
        return "write the needle in millimetres, such as 4 mm; numbered sizes differ from maker to maker"
    return None


def _word(found: str, words: Any) -> str | None:
    """The one of the format's words that somebody meant."""
    known = [w for w in words if isinstance(w, str)]
    lower = found.strip().lower()
    if not known or len(lower) > 40:
        return None
    for word in (lower, *lower.split()):
        if word in known or word.upper() in known:
            return word if word in known else word.upper()
    for said, meant in _WORDS.items():
        if said in lower and meant in known:
            return meant
    return nearest(lower, known)


# Keys that another format has at such a place, and why this one needs none.
_ELSEWHERE = {("divide", "stitches"): "in a chart the grid shows which stitches part the sides; expected no count"}


def elsewhere(path: Path, name: str) -> str:
    """Why a key that stands in another format is not needed here; "" for all others."""
    return _ELSEWHERE.get((str(path[0]), name), "") if path else ""
