"""Schema errors in words: what was found, what is expected, where. And the data without its faulty parts."""

from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from typing import Any

from lintarsia.chart import Path, Places
from lintarsia.reading.schema import Schema
from lintarsia.result import Finding


def schema_findings(schema: Schema, data: dict[str, Any], places: Places) -> list[Finding]:
    """One finding for each independent fault. Afterwards `data` holds None (or no key) wherever it was faulty."""
    findings: list[Finding] = []
    unset: list[Path] = []
    dropped: list[Path] = []
    done: set[tuple[Path, str]] = set()
    for error in schema.errors(data):
        path: Path = tuple(error.absolute_path)
        kind = str(error.validator)
        about = _kind(kind, error.absolute_schema_path)
        mark = (path, str(error.instance) if about == "name" else about)
        if mark in done:
            continue
        done.add(mark)
        if about == "unknown":
            known = list(error.schema.get("properties", {}))
            for name in [n for n in error.instance if n not in known]:
                findings.append(_unknown(name, known, path, places))
                dropped.append((*path, name))
        elif about == "required":
            missing = [n for n in error.validator_value if n not in error.instance]
            findings.extend(_missing(name, path, error.schema, schema, places) for name in missing)
            unset.append(path)
        elif about == "name":
            findings.append(_bad_name(error.instance, path, error.schema, places))
            dropped.append((*path, error.instance))
        else:
            findings.append(_bad_value(kind, error.instance, path, error.schema, places))
            unset.append(path)
    if not findings:  # the two validators disagree: never let a refused file pass in silence
        findings.append(Finding("wrong-value", "the file is not as the schema has it", places.value()))
    _strike(data, unset, dropped)
    return findings


def _kind(keyword: str, schema_path: Iterable[str | int]) -> str:
    if "propertyNames" in schema_path:
        return "name"
    return {"additionalProperties": "unknown", "required": "required"}.get(keyword, "value")


def _unknown(name: str, known: Sequence[str], path: Path, places: Places) -> Finding:
    meant = did_you_mean(name, known)
    where = f" in {path_words(path)}" if path else ""
    if name == "<<":
        return Finding(
            "merge-key",
            f"`<<` merges keys from another place{where}; expected the keys themselves",
            places.key(*path, name),
            remedy="write the keys out where they are used",
        )
    hint = f"did you mean {meant!r}?" if meant else f"expected {one_of(known)}"
    return Finding("unknown-key", f"unknown key {name!r}{where}; {hint}", places.key(*path, name))


def _missing(name: str, path: Path, holder: Any, schema: Schema, places: Places) -> Finding:
    from lintarsia.reading.shape import resolve

    member = resolve(holder.get("properties", {}).get(name, {}), schema.raw)
    where = path_words(path) if path else "the file"
    return Finding("missing-key", f"{where} has no {name!r}; expected {member.get('title', 'it')}", places.key(*path))


def _bad_name(name: str, path: Path, wanted: Any, places: Places) -> Finding:
    return Finding(
        "wrong-name",
        f"the key {quoted(name)} in {path_words(path)} cannot stand there; expected {wanted.get('title', 'another name')}",
        places.key(*path, name),
    )


def _bad_value(keyword: str, found: Any, path: Path, wanted: Any, places: Places) -> Finding:
    key = "wrong-type" if keyword == "type" else "wrong-value"
    expected = wanted.get("title", "something else")
    region = places.key(*path) if found is None else places.value(*path)
    return Finding(key, f"{path_words(path)}: found {quoted(found)}; expected {expected}", region)


def path_words(path: Path) -> str:
    """A path as one would say it: `shade of B in colours`."""
    names = [f"entry {step + 1}" if isinstance(step, int) else step for step in path]
    if len(names) <= 1:
        return names[0] if names else "the file"
    return " of ".join(reversed(names[1:])) + f" in {names[0]}"


def quoted(found: Any) -> str:
    """A value as it was found, short enough for a message."""
    if found is None:
        return "nothing"
    if isinstance(found, bool):
        return str(found).lower()
    if isinstance(found, dict):
        return "a group of keys" if found else "an empty group"
    if isinstance(found, list):
        return f"a list of {len(found)}"
    if isinstance(found, str):
        if not found:
            return "an empty text"
        return repr(found if len(found) <= 40 else found[:37] + "...")
    return str(found)


def one_of(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + f" or {names[-1]}"


def did_you_mean(name: str, known: Iterable[str]) -> str | None:
    """The known name that looks most like `name`, if any does."""
    lower = {k.lower(): k for k in known}
    guess = name.lower().replace("_", "-")
    guess = {"color": "colour", "colors": "colours"}.get(guess, guess)
    close = get_close_matches(guess, lower, n=1, cutoff=0.6)
    return lower[close[0]] if close else None


def _strike(data: dict[str, Any], unset: Iterable[Path], dropped: Iterable[Path]) -> None:
    for path, drop in [(p, False) for p in unset] + [(p, True) for p in dropped]:
        holder: Any = data
        for step in path[:-1]:
            # what holds this fault may have been struck already, for a fault of its own
            inside = isinstance(holder, list) or (isinstance(holder, dict) and step in holder)
            holder = holder[step] if inside else None
        if not path or holder is None:
            continue
        if drop:
            holder.pop(path[-1], None)
        else:
            holder[path[-1]] = None
