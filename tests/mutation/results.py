"""The file of results: one line a mutant, the last word on it counts; what it tells."""

import json
from collections import defaultdict
from pathlib import Path
from typing import Any, TextIO

LISTED = Path(__file__).parent / "SURVIVORS.md"
Entry = dict[str, Any]


def note(out: TextIO, entry: Entry, verdict: str) -> None:
    out.write(json.dumps({**entry, "verdict": verdict}, ensure_ascii=False) + "\n")
    out.flush()


def read_results(path: Path) -> dict[str, Entry]:
    """What is known of each mutant, the last word on it."""
    lines = path.read_text("utf-8").splitlines() if path.exists() else []
    return {entry["id"]: entry for entry in map(json.loads, lines)}


def survived(entry: Entry) -> bool:
    return entry["verdict"] in ("survived", "not reached", "error")


def summary(results: list[Entry]) -> None:
    """Killed and all, by file and by folder; then the survivors that SURVIVORS.md has no reason for."""
    by_file: dict[str, list[bool]] = defaultdict(list)
    mine = [entry for entry in results if entry["verdict"] != "no change"]
    for entry in mine:
        file = entry["id"].partition(" ")[0]
        for name in (file, file.partition("/")[0], "in all"):
            by_file[name].append(not survived(entry))
    for name, found in sorted(by_file.items(), key=lambda pair: ("/" not in pair[0], pair[0] == "in all", pair[0])):
        print(f"{sum(found):5} of {len(found):5}  {sum(found) / len(found):6.1%}  {name}")
    print(f"{sum(entry['verdict'] == 'timed out' for entry in mine)} of the killed never ended")
    listed = {line[2:] for line in LISTED.read_text("utf-8").splitlines()} if LISTED.exists() else set()
    alive = {entry["id"]: entry for entry in mine if survived(entry)}
    for name, entry in alive.items():
        if name not in listed:
            print(f"{entry['verdict']}, without a reason: {name}  [{entry['tests']} tests]")
    for entry in mine:
        if entry["id"] in listed and entry["id"] not in alive:
            print(f"listed, though killed: {entry['id']}")
