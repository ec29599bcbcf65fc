"""The published schemas: valid by the standard's own schema, documented on every key, kind to editors."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from reading_charts import EVERY_KEY, PLAIN

from lintarsia.ground.resources import resource
from lintarsia.reading.schema import load_schema
from lintarsia.reading.shape import resolve

# The schemas of files that people write; those of our answers are not for editors.
NAMES = sorted(
    p.name for p in resource("schema").glob("*.schema.json") if "yaml" in load_schema(p.name).raw["description"]
)


def schemas(node: Mapping[str, Any], path: str = "") -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every subschema of a schema, with its path."""
    yield path, node
    for key in ("items", "additionalProperties", "propertyNames"):
        if isinstance(node.get(key), dict):
            yield from schemas(node[key], f"{path}/{key}")
    for key in ("properties", "$defs"):
        for name, member in node.get(key, {}).items():
            yield from schemas(member, f"{path}/{name}")


@pytest.mark.parametrize("name", NAMES)
def test_the_schema_is_valid_draft_2020_12(name: str) -> None:
    raw = load_schema(name).raw
    assert raw["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(raw)  # the meta-schema of json-schema.org, as jsonschema ships it


@pytest.mark.parametrize("name", NAMES)
def test_every_key_is_documented_and_its_examples_hold(name: str) -> None:
    raw = load_schema(name).raw
    for path, node in schemas(raw):
        whole = resolve(node, raw)
        assert whole.get("title"), path  # names what is expected, in messages
        assert whole["description"].endswith((".", "`")), path
        if path:
            assert whole.get("examples"), path
        for example in whole.get("examples", ()):
            validator = Draft202012Validator({**whole, "$defs": raw["$defs"]})
            assert validator.is_valid(example), (path, example)


@pytest.mark.parametrize("name", NAMES)
def test_groups_are_closed_and_editors_of_draft_7_understand_all_of_it(name: str) -> None:
    later = {
        "prefixItems",
        "unevaluatedProperties",
        "unevaluatedItems",
        "dependentRequired",
        "oneOf",
        "anyOf",
        "$anchor",
    }
    for path, node in schemas(load_schema(name).raw):
        assert not later & set(node), path
        if "properties" in node:
            assert node["additionalProperties"] is False or isinstance(node["additionalProperties"], dict), path
        if "pattern" in node and node["pattern"] != "\\S":
            assert node["pattern"].startswith("^"), path
            assert node["pattern"].endswith("$"), path


def test_both_schemas_say_the_same_of_limits() -> None:
    chart, settings = load_schema("chart.schema.json").raw, load_schema("settings.schema.json").raw
    assert chart["properties"]["limits"]["properties"] == settings["properties"]["limits"]["properties"]
    for name in set(chart["$defs"]) & set(settings["$defs"]):
        assert chart["$defs"][name] == settings["$defs"][name]


@pytest.mark.parametrize("text", [PLAIN, EVERY_KEY])
def test_an_editor_with_an_ordinary_loader_finds_no_fault_either(text: str) -> None:
    # Editors hand their own tree to the schema, with numbers where YAML sees numbers; row keys become text in JSON.
    tree = json.loads(json.dumps(yaml.safe_load(text)))
    assert Draft202012Validator(load_schema("chart.schema.json").raw).is_valid(tree)


def test_an_editor_accepts_symbols_and_names_that_yaml_takes_for_something_else() -> None:
    tree = yaml.safe_load(PLAIN.replace("Two pebbles", "1066").replace("Pebble", "no").replace("Shore", "1.5"))
    assert tree["title"] == 1066
    tree["duplicate-stitch"] = [{"colour": 0, "row": 1, "stitches": [1, 1]}]
    errors = list(Draft202012Validator(load_schema("chart.schema.json").raw).iter_errors(tree))
    # Only the pattern of a symbol cannot be checked on a number; nothing is refused for its type.
    assert errors == []


def test_the_schema_files_are_plain_ascii_json_and_end_with_a_line_break() -> None:
    for name in NAMES:
        text = resource(f"schema/{name}").read_text(encoding="utf-8")
        assert text.isascii()
        assert text.endswith("}\n")
