"""What a chart is knitted of and how tightly: gauge, colours, yarns, supplies, limits, from plain, checked data."""

from typing import Any

from lintarsia.chart import Colour, FloatGauge, Gauge, Limits, StatedSupplies, StatedSupply, Yarn
from lintarsia.chart.measure import Length, Mass, StitchCount, parse_length, parse_mass, parse_reach


def whole(data: Any, *names: str) -> bool:
    """Whether a list's entry is there with all of these; a range with a faulty end counts as missing."""
    return data is not None and all(
        data.get(n) is not None and not (isinstance(data[n], list) and None in data[n]) for n in names
    )


def build_gauge(data: Any) -> Gauge | None:
    if not whole(data or {}, "stitches", "rows", "over"):
        return None
    over = parse_length(data["over"])
    if not over.value:
        return None
    floats = data.get("float-gauge")
    return Gauge(
        stitches=data["stitches"],
        rows=data["rows"],
        over=over,
        needle=_length(data.get("needle")),
        loop=_length(data.get("loop")),
        float_gauge=FloatGauge(floats["stitches"], floats["rows"]) if whole(floats, "stitches", "rows") else None,
    )


def build_colours(data: Any) -> dict[str, Colour]:
    colours = {}
    for symbol, colour in (data or {}).items():
        get = (colour or {}).get  # a symbol whose colour is faulty is still a symbol of the key
        colours[symbol] = Colour(
            symbol,
            get("name") or symbol,
            (get("shade") or "#808080").lower(),
            get("yarn"),
            not get("shade"),
            _also(get("also")),
        )
    return colours


def _also(data: Any) -> tuple[str, ...]:
    """Other names of a colour: one, or a list of them."""
    names = data if isinstance(data, list) else [data]
    return tuple(name.strip() for name in names if name)


def build_yarn(name: str, data: Any) -> Yarn:
    get = data.get
    length = _length(get("length"))
    return Yarn(
        id=name,
        name=get("name") or "",
        weight=None if get("weight") is None else int(get("weight")),
        length=length if length and length.value else None,  # a ball of 0 m is reported, and cannot be divided by
        mass=_mass(get("mass")),
        balls=get("balls"),
        fibre=get("fibre") or "",
    )


def build_supplies(data: Any) -> StatedSupplies:
    if isinstance(data, list):
        each = tuple(StatedSupply((d or {}).get("holder"), _length((d or {}).get("length"))) for d in data)
        return StatedSupplies(len(each), each)
    return StatedSupplies(int(data))


def build_limits(data: Any) -> Limits:
    if not data:
        return Limits()

    def count(name: str) -> int | None:
        return None if data.get(name) is None else int(data[name])

    def reach(name: str) -> Length | StitchCount | None:
        return None if data.get(name) is None else parse_reach(data[name])

    return Limits(
        supplies=count("supplies"),
        float=reach("float"),
        carry=reach("carry"),
        idle=count("idle"),
        strand=count("strand"),
    )


def _length(text: str | None) -> Length | None:
    return None if text is None else parse_length(text)


def _mass(text: str | None) -> Mass | None:
    return None if text is None else parse_mass(text)
