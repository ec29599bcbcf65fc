"""Every key of a file format, as Markdown, from the schema that its files are checked against."""

import json
from collections.abc import Iterator
from typing import Any

from lintarsia.ground.resources import resource

Node = dict[str, Any]


def keys_of(name: str) -> str:
    """`chart`, `pattern` or `settings`: a heading for each key at the top, a table of what lies below it."""
    schema = json.loads((resource("schema") / f"{name}.schema.json").read_text(encoding="utf-8"))
    return "\n".join(_sections(schema))


def _sections(schema: Node) -> Iterator[str]:
    required = schema.get("required", [])
    for key, bare in schema["properties"].items():
        node = _whole(bare, schema)
        yield f"## `{key}` {{ #{key} }}\n"
        yield f"{node['description']}\n"
        facts = ["required" if key in required else "may be left out", f"takes {_takes(node)}"]
        if "default" in node:
            facts.append(f"default `{_written(node['default'])}`")
        yield f"*{'; '.join(facts)}.*\n".replace("`.*", "`*.") + "\n"
        lines = list(_below(node, schema, ""))
        if lines:
            yield "| key | | takes | for example |\n|---|---|---|---|\n" + "\n".join(lines) + "\n"
        elif node.get("examples"):
            yield f"For example:\n\n```yaml\n{_example(key, node['examples'][0])}```\n"
        if lines and node.get("examples"):
            yield f"For example:\n\n```yaml\n{_example(key, node['examples'][0])}```\n"


def _below(node: Node, schema: Node, above: str) -> Iterator[str]:
    """A line for each key inside a key. A name that the file makes up is shown as `…`, an entry of a list as `-`."""
    required = node.get("required", [])
    for key, bare in node.get("properties", {}).items():
        inner = _whole(bare, schema)
        yield _line(f"{above}{key}", inner, key in required)
        yield from _below(inner, schema, f"{above}{key}.")
    for mark, part in (("…", node.get("additionalProperties")), ("-", node.get("items"))):
        if isinstance(part, dict):
            inner = _whole(part, schema)
            if mark == "-" and not any(k in inner for k in ("properties", "additionalProperties", "items")):
                continue  # what the entries of a plain list are is said of the list
            yield _line(f"{above}{mark}", inner, False)
            yield from _below(inner, schema, f"{above}{mark}.")


def _line(path: str, node: Node, required: bool) -> str:
    default = f" Default `{_written(node['default'])}`." if "default" in node else ""
    told = f"{node['description']}{' Required.' if required else ''}{default}"
    example = f"`{_written(node['examples'][0])}`" if node.get("examples") else ""
    return f"| `{path}` | {_cell(told)} | {_cell(_takes(node))} | {_cell(example)} |"


def _whole(node: Node, schema: Node) -> Node:
    """A node with what it refers to; what it says itself wins."""
    if "$ref" in node:
        return {**schema["$defs"][node["$ref"].rpartition("/")[2]], **node}
    return node


def _takes(node: Node) -> str:
    title = str(node.get("title", "text"))
    return title.replace("<", "&lt;")


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


def _written(value: object) -> str:
    return json.dumps(value, ensure_ascii=False) if not isinstance(value, str) else value.replace("\n", "⏎")


def _example(key: str, value: object) -> str:
    if isinstance(value, str) and "\n" in value:
        return f"{key}: |\n" + "".join(f"  {line}\n" for line in value.splitlines())
    return f"{key}: {_flow(value)}\n"


def _key(key: str) -> str:
    """A key with a comma would be two of them."""
    return json.dumps(key, ensure_ascii=False) if "," in key else key


def _flow(value: object) -> str:
    """A value as YAML on one line, as a designer would write it."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_key(k)}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, str):
        plain = value and not set(value) & set(":#{}[],&*!|>'\"%@`;") and not value[0].isdigit() and value.isprintable()
        measured = value and value[0].isdigit() and value[-1].isalpha()
        off = value.lower() in ("off", "on", "yes", "no", "true", "false", "null")
        return value if (plain and not off) or measured or value == "10 %" else json.dumps(value, ensure_ascii=False)
    return json.dumps(value)
