"""Results as case files state them, to be compared and pasted."""

from typing import Any

from lintarsia.result import Result


def as_expected(result: Result, general_remedy: str) -> dict[str, Any]:
    """A result as a case file states it, every scalar as text. The remedy is left out where it is the rule's own."""
    told: dict[str, Any] = {"key": result.key, "level": str(result.level), "message": result.message}
    if result.row is not None:
        told["row"] = str(result.row)
    if result.stitches is not None:
        told["stitches"] = [str(stitch) for stitch in result.stitches]
    told["region"] = {name: str(value) for name, value in result.region._asdict().items()}
    if result.remedy != general_remedy:
        told["remedy"] = result.remedy
    if result.fixes:
        told["fixes"] = [
            {
                "description": fix.description,
                "safe": str(fix.safe).lower(),
                "edits": [
                    {"region": {n: str(v) for n, v in edit.region._asdict().items()}, "text": edit.text}
                    for edit in fix.edits
                ],
            }
            for fix in result.fixes
        ]
    if result.suppressed:
        told["suppressed"] = "true"
    return told


def expectation_text(told: list[dict[str, Any]]) -> str:
    """The `expect:` part of a case file, ready to be read through and pasted."""
    if not told:
        return "expect: []\n"
    lines = ["expect:"]
    for result in told:
        for i, (name, value) in enumerate(result.items()):
            lines.append(f"  {'- ' if i == 0 else '  '}{name}: {_flow(value)}")
    return "\n".join(lines) + "\n"


def _flow(value: Any) -> str:
    if isinstance(value, list):
        return f"[{', '.join(map(_flow, value))}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{name}: {_flow(inner)}' for name, inner in value.items())}}}"
    plain = str(value)
    if plain and all(c.isalnum() or c in "-" for c in plain):
        return plain
    escaped = plain.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'
