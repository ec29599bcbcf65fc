"""Schema errors in words: what was found, what is expected, where. And the data without its faulty parts."""

from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass, field
from typing import Any

from lintarsia.chart import Path, Places
from lintarsia.reading.phrases import path_words, quoted
from lintarsia.reading.remedies import elsewhere, for_missing, for_value
from lintarsia.reading.schema import Schema
from lintarsia.reading.shape import resolve
from lintarsia.reading.tree import MOST_FINDINGS
from lintarsia.result import NOWHERE, Edit, Finding, Fix, Region
from lintarsia.telling.counts import one_of
from lintarsia.telling.guessing import nearest

MOST = ("maximum", "maxItems", "maxProperties", "maxLength")


@dataclass(slots=True)
class _Faults:
    """What is gathered while the errors are gone through."""

    schema: Schema
    places: Places
    cut: Set[Region]
    findings: list[Finding] = field(default_factory=list)
    absent: list[tuple[Path, Finding]] = field(default_factory=list)
    meant: set[tuple[str | int | None, ...]] = field(default_factory=set)
    unset: list[Path] = field(default_factory=list)
    dropped: list[Path] = field(default_factory=list)

    def unknown(self, path: Path, found: Any, holder: Any) -> None:
        known = list(holder.get("properties", {}))
        for name in [n for n in found if n not in known]:
            self.dropped.append((*path, name))
            if len(self.findings) >= MOST_FINDINGS:
                continue
            meant = None if name == "<<" or elsewhere(path, name) else nearest(name, known)
            self.meant.add((*path, meant))
            region = self.places.key(*path, name)
            self.findings.append(_unknown(name, meant, known, path, region, fixable=meant not in found))

    def missing(self, path: Path, found: Any, holder: Any) -> None:
        where = path_words(path) if path else "the file"
        for name in [n for n in holder["required"] if n not in found]:
            member = resolve(holder.get("properties", {}).get(name, {}), self.schema.raw)
            message = f"{where} has no {name!r}; expected {member.get('title', 'it')}"
            region, remedy = self.places.key(*path), for_missing(name, member)
            finding = Finding("missing-key", message, region, remedy=remedy, fixes=self._version(path, name, member))
            self.absent.append(((*path, name), finding))

    def _version(self, path: Path, name: str, member: Any) -> tuple[Fix, ...]:
        """The key that says which version of a format the file is in: there is one so far, so its value is certain."""
        certain = member.get("enum", ())
        if path or not name.startswith("lintarsia") or len(certain) != 1 or self.places.editor is None:
            return ()
        edit = self.places.editor.putting_first(name, str(certain[0]))
        return (Fix(f"write {name}: {certain[0]}", (edit,)),) if edit else ()

    def bad_name(self, path: Path, name: str, wanted: Any) -> None:
        where = f" in {path_words(path)}" if path else ""
        message = f"the key {quoted(name)}{_codes(name)} cannot stand{where}; expected {wanted.get('title', 'another')}"
        self.findings.append(Finding("wrong-name", message, self.places.key(*path, name)))
        self.dropped.append((*path, name))

    def bad_value(self, path: Path, found: Any, wanted: Any, keyword: str) -> None:
        self.unset.append(path)
        region = self.places.key(*path) if found is None else self.places.value(*path)
        if found is None and region in self.cut:
            return
        expected = wanted.get("title", "something else")
        if keyword in MOST and str(wanted[keyword]) not in expected:
            expected += f", at most {wanted[keyword]:,}"
        message = f"{path_words(path)}: found {quoted(found)}; expected {expected}"
        key = "wrong-type" if keyword == "type" else "wrong-value"
        self.findings.append(Finding(key, message, region, remedy=for_value(str(path[-1]), found, wanted)))


def schema_findings(
    schema: Schema, data: dict[str, Any], places: Places, cut: Set[Region] = frozenset()
) -> list[Finding]:
    """One finding for each independent fault.

    Afterwards `data` holds None wherever a value was faulty, and no key that is unknown; a group that lacks a required
    key keeps the others.

    `cut` are the regions of keys whose value is missing for a reason that has been reported.
    """
    faults = _Faults(schema, places, cut)
    done: set[tuple[Path, str]] = set()
    for error in schema.errors(data):
        path: Path = tuple(error.absolute_path)
        keyword = str(error.validator)
        found: Any = error.instance
        about = _about(keyword, error.absolute_schema_path)
        mark = (path, str(found) if about == "name" else about)
        if mark in done:  # one fault may break several keywords
            continue
        done.add(mark)
        if len(faults.findings) >= MOST_FINDINGS:
            data.clear()  # what is left of it has not been checked
            break
        if about == "unknown":
            faults.unknown(path, found, error.schema)
        elif about == "missing":
            faults.missing(path, found, error.schema)
        elif about == "name":
            faults.bad_name(path, found, error.schema)
        else:
            faults.bad_value(path, found, error.schema, keyword)
    if not done:  # the two validators disagree: never let a refused file pass in silence
        faults.findings.append(Finding("wrong-value", "the file is not as its schema has it", NOWHERE))
    _strike(data, faults.unset, faults.dropped)
    # A required key that is misspelt is one fault, not two.
    return faults.findings + [finding for path, finding in faults.absent if path not in faults.meant]


def _about(keyword: str, schema_path: Iterable[str | int]) -> str:
    if "propertyNames" in schema_path:
        return "name"
    return {"additionalProperties": "unknown", "required": "missing"}.get(keyword, "value")


def _unknown(
    name: str, meant: str | None, known: Sequence[str], path: Path, region: Region, *, fixable: bool
) -> Finding:
    if name == "<<":
        message = "`<<` merges keys from another place; expected the keys themselves"
        return Finding("merge-key", message, region, remedy="write the keys out where they are used")
    if why := elsewhere(path, name):
        message = f"unknown key {quoted(name)} of {path_words(path)}: {why}"
        return Finding("unknown-key", message, region, remedy="take it out")
    names = one_of(known) if len(known) <= 8 else "a key of the format"
    hint = f"did you mean {meant!r}?" if meant else f"expected {names}"
    where = ""
    if path:
        where = f" of {path_words(path)}" if len(path) > 1 else f" in {path_words(path)}"
    fixes = (Fix(f"write {meant}", (Edit(region, meant),), safe=False),) if meant and fixable else ()
    remedy = f"write {meant}" if meant else "take it out; what is only for people can stand in a comment, after #"
    return Finding("unknown-key", f"unknown key {quoted(name)}{where}; {hint}", region, remedy=remedy, fixes=fixes)


def _codes(name: str) -> str:
    """The code points of a short name, where some of it may not be visible."""
    if name.isascii() or not 1 < len(name) <= 4:
        return ""
    return f" ({' '.join(f'U+{ord(c):04X}' for c in name)})"


def _strike(data: dict[str, Any], unset: Iterable[Path], dropped: Iterable[Path]) -> None:
    for path, drop in [(p, False) for p in unset] + [(p, True) for p in dropped]:
        holder: Any = data
        for step in path[:-1]:
            # what holds this fault may have been struck already, for a fault of its own
            inside = isinstance(holder, list) or (isinstance(holder, dict) and step in holder)
            holder = holder[step] if inside else None
        if holder is None or not path or not data:
            continue
        if drop:
            holder.pop(path[-1], None)
        else:
            holder[path[-1]] = None
