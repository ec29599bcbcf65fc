"""The published schemas, loaded once a process: a fast yes or no, and the slow, careful reasons only after a no."""

import json
from collections.abc import Callable, Iterable, Mapping
from functools import cache, cached_property
from typing import TYPE_CHECKING, Any

from lintarsia.ground.resources import resource
from lintarsia.reading.shape import Shape, make_shape

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError


class Schema:
    """One schema file: its shape, and its two validators, each made when first needed."""

    def __init__(self, raw: Mapping[str, Any]) -> None:
        self.raw = raw
        self.shape: Shape = make_shape(raw)

    @cached_property
    def accepts(self) -> Callable[[Any], bool]:
        """Whether plain data is valid, decided by the compiled validator: some 10 µs for a chart."""
        import jsonschema_rs

        return jsonschema_rs.validator_for(dict(self.raw)).is_valid

    def errors(self, data: Any) -> Iterable["ValidationError"]:
        """Every fault of the data, from the reference validator, whose import alone costs 100 ms: only after a no."""
        errors: Iterable[ValidationError] = self._reference.iter_errors(data)
        return errors

    @cached_property
    def _reference(self) -> Any:
        import re

        from jsonschema import Draft202012Validator, ValidationError
        from jsonschema.validators import extend

        def pattern(validator: Any, wanted: str, instance: Any, schema: Any) -> Iterable[ValidationError]:
            # Python's $ also matches before a last line break; the standard's does not.
            if isinstance(instance, str) and not re.search(wanted.replace("$", r"\Z"), instance):
                yield ValidationError(f"{instance!r} does not match {wanted!r}")

        reference = extend(Draft202012Validator, {"pattern": pattern})  # type: ignore[no-untyped-call]
        return reference(self.raw)


@cache
def load_schema(name: str) -> Schema:
    """A schema shipped with lintarsia, by its file name, such as "chart.schema.json"."""
    return Schema(json.loads(resource(f"schema/{name}").read_text(encoding="utf-8")))
