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

# libyaml's, where PyYAML has it, is ten times as fast; both take every scalar as text.
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
KEYS = {"name", *Kind, "charts", "settings", "expect"}  # the file stands under its kind


@dataclass(frozen=True, slots=True)
class Case:
    """`name` is a phrase that states the situation; `chart` and `settings` are whole files as text; `expect` holds
    every result of `rule`, as tests/rules/expecting.py writes them. Where `kind` is another, `chart` is a file of that
    kind, and `beside` holds the files in its folder by their names.
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
    def clean(self) -> bool:
        """Whether the rule must stay silent."""
        return not self.expect


def read_case(file: Path) -> Case:
    """The case in `<group>/<rule>/<situation>.yaml`. Raises ValueError with what is wrong in plain words."""
    data = yaml.load(file.read_text(encoding="utf-8"), _Loader)
    if not isinstance(data, dict):
        raise ValueError(f"{file}: a case is a mapping with name, chart and expect")
    subject = next((kind for kind in reversed(Kind) if kind in data), Kind.CHART)
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
        kind=subject,
        beside=data.get("charts") or {},
    )


def read_cases(folder: Path) -> Iterator[Case]:
    """Every case below `folder`, in the order of their paths."""
    return map(read_case, sorted(folder.glob("*/*/*.yaml")))
