"""A gauge as it is typed: `22x30`, or `18x24/4in`."""

import re

import click

_GAUGE = re.compile(
    r"([0-9]+(?:\.[0-9]+)?) ?[x×] ?([0-9]+(?:\.[0-9]+)?)(?: ?/ ?([0-9]+(?:\.[0-9]+)? ?(?:mm|cm|m|in|yd)))?"
)


def read_gauge(ctx: click.Context, param: click.Parameter, value: str) -> tuple[float, float, str]:
    """Stitches, rows, and the length they are over (10 cm where none is named). Raises BadParameter."""
    match = _GAUGE.fullmatch(value.strip())
    if not match or not 0 < float(match[1]) <= 10000 or not 0 < float(match[2]) <= 10000:
        raise click.BadParameter(f"{value!r} is not a gauge; expected stitches and rows such as 22x30 or 18x24/4in")
    over = re.sub(r"(?<=[0-9])(?=[a-z])", " ", match[3].replace(" ", "")) if match[3] else "10 cm"
    return float(match[1]), float(match[2]), over
