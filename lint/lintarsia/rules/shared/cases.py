"""Case files: a chart and what a rule has to say of it. They are the rule's tests and its page's examples at once.

The format is described in tests/cases/README.md.
"""

from collections.abc import Iterator, Mapping
from dataclasses import field
from pathlib import Path
from typing import Any

import yaml

from lintarsia.ground.kinds import Kind
from lintarsia.ground.values import dataclass
from lintarsia.result import Result

# libyaml's, where PyYAML has it, is ten times as fast; both take every scalar as text.
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
SUBJECTS = {"chart": Kind.CHART, "pattern": Kind.PATTERN, "log": Kind.KNIT}  # the key that holds the file
KEYS = {"name", *SUBJECTS, "charts", "settings", "expect"}


@dataclass(frozen=True, slots=True)
class Case:
    """`name` is a phrase that states the situation; `chart` and `settings` are whole files as text; `expect` holds
    every result of `rule`, each as `as_expected` writes it. Where `kind` is another, `chart` is a file of that kind,
    and `beside` holds the files in its folder by their names.
    """

    rule: str
    file: Path
    name: str
    chart: str
    settings: str
    expect: tuple[Mapping[str, Any], ...]
    kind: Kind = Kind.CHART
    beside: Mapping[str, str] = field(default_factory=dict)

    @property
    def pattern(self) -> bool:
        """Whether it is about a file that names others, and says nothing without them."""
        return not self.kind.whole

    @property
    def clean(self) -> bool:
        """Whether the rule must stay silent."""
        return not self.expect


def read_case(file: Path) -> Case:
    """The case in `<group>/<rule>/<situation>.yaml`. Raises ValueError with what is wrong in plain words."""
    data = yaml.load(file.read_text(encoding="utf-8"), _Loader)
    if not isinstance(data, dict):
        raise ValueError(f"{file}: a case is a mapping with name, chart and expect")
    subject = next((key for key in ("log", "pattern") if key in data), "chart")
    if missing := {"name", subject, "expect"} - set(data):
        raise ValueError(f"{file}: the case has no {', '.join(sorted(missing))}")
    if unknown := set(data) - KEYS:
        raise ValueError(f"{file}: a case has no {', '.join(sorted(unknown))}; it has {', '.join(sorted(KEYS))}")
    rule = f"{file.parent.parent.name}/{file.parent.name}"
    return Case(
        rule=rule,
        file=file,
        name=data["name"],
        chart=data[subject],
        settings=data.get("settings", ""),
        expect=tuple(data["expect"]),
        kind=SUBJECTS[subject],
        beside=data.get("charts") or {},
    )


def read_cases(folder: Path) -> Iterator[Case]:
    """Every case below `folder`, in the order of their paths."""
    return map(read_case, sorted(folder.glob("*/*/*.yaml")))


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
