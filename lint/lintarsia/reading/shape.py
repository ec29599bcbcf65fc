"""What the schema says of each place in a file, boiled down to what the tree builder asks: is this text or a number?"""

import re
from collections.abc import Mapping
from typing import Any

NUMBER = re.compile(r"[-+]?(?:[0-9]{1,15}(?:\.[0-9]{0,15})?|\.[0-9]{1,15})", re.ASCII)


class Shape:
    """One schema, resolved: the shapes of its members and how its plain scalars are read.

    A scalar is a number only where the schema asks for one, so that a title `123`, a symbol `0` or a yarn named `no`
    stay the text they are. Where the schema says nothing, numbers and true/false are taken so.
    """

    __slots__ = ("items", "members", "others", "text", "truth")

    def __init__(self) -> None:
        self.members: dict[str, Shape] = {}
        self.others: Shape | None = None
        self.items: Shape | None = None
        self.text = True
        self.truth = False

    def scalar(self, value: str) -> str | int | float | bool:
        """A plain scalar as the schema would have it; the text itself where it is not that."""
        if NUMBER.fullmatch(value):
            number = float(value)
            return int(number) if number.is_integer() else number  # validators differ on whether 4.0 is whole
        if self.truth and value in ("true", "false"):
            return value == "true"
        return value


ANY = Shape()
ANY.text, ANY.truth = False, True


def make_shape(schema: Mapping[str, Any], root: Mapping[str, Any] | None = None) -> Shape:
    """The shape of a schema. Understands what our schemas use: local $ref, properties, additionalProperties, items."""
    root = schema if root is None else root
    schema = resolve(schema, root)
    stated = schema.get("type")
    types = {stated} if isinstance(stated, str) else set(stated or ())
    shape = Shape()
    if not types and "enum" not in schema and "pattern" not in schema:
        shape.text, shape.truth = False, True
    elif "string" not in types or types == {
        "string",
        "integer",
    }:  # a length or a count: 4.0 is a whole number there too
        shape.text = not types & {"integer", "number", "boolean"}
        shape.truth = "boolean" in types
    shape.members = {name: make_shape(member, root) for name, member in schema.get("properties", {}).items()}
    others = schema.get("additionalProperties")
    if isinstance(others, dict):
        shape.others = make_shape(others, root)
    if isinstance(schema.get("items"), dict):
        shape.items = make_shape(schema["items"], root)
    return shape


def resolve(schema: Mapping[str, Any], root: Mapping[str, Any]) -> Mapping[str, Any]:
    """The schema with a local `$ref` filled in; what stands beside the reference wins."""
    reference = schema.get("$ref")
    if not isinstance(reference, str):
        return schema
    target: Any = root
    for step in reference.removeprefix("#/").split("/"):
        target = target[step]
    return {**resolve(target, root), **{k: v for k, v in schema.items() if k != "$ref"}}
