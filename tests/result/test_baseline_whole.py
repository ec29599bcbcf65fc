"""A baseline written, read and held against reports, each step whole."""

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from lintarsia.ground.trouble import Trouble
from lintarsia.result import Level, Region, Report, Result, RuleInfo
from lintarsia.result.baseline import BaselineEntry, Mark, accepted_of, hold_against, read_baseline, write_out

RULES = {
    name: RuleInfo(name, Level.WARNING, "s", "w", f"remedy of {name}", {"k": "p"}, acceptable=name != "file/torn")
    for name in ("colour/unused", "float/too-long", "file/torn")
}
STALE = RuleInfo("baseline/stale", Level.OFF, "s", "w", "run again", {"stale": "p"})


def result(file: str, rule: str, mark: str, line: int = 3, **more: Any) -> Result:
    return Result(
        rule, "k", Level.WARNING, f"{rule} é {mark}", file, Region(line, 2, line, 7), fingerprint=mark, **more
    )


def report(*results: Result, files: tuple[str, ...] = ("b/two.chart.yaml", "one.chart.yaml")) -> Report:
    return Report(len(files), results, rules=RULES, files=files)


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "b").mkdir()
    for name in ("one.chart.yaml", "b/two.chart.yaml", "kept.chart.yaml"):
        (tmp_path / name).touch()
    return tmp_path


FOUND = (
    result("one.chart.yaml", "float/too-long", "ff"),
    result("one.chart.yaml", "colour/unused", "bb", 9),
    result("one.chart.yaml", "colour/unused", "ab", suppressed=True),
    result("b/two.chart.yaml", "colour/unused", "cc"),
    result("b/two.chart.yaml", "file/torn", "dd"),
)
TEXT = """\
{"schema": "lintarsia/baseline/1", "accepted": [
{"file": "b/two.chart.yaml", "rule": "colour/unused", "fingerprint": "cc", "message": "colour/unused é cc"},
{"file": "one.chart.yaml", "rule": "colour/unused", "fingerprint": "bb", "message": "colour/unused é bb"},
{"file": "one.chart.yaml", "rule": "float/too-long", "fingerprint": "ff", "message": "float/too-long é ff"}
]}
"""


def kept(file: str, mark: str) -> str:
    return f'{{"file": "{file}", "rule": "colour/unused", "fingerprint": "{mark}", "message": "m"}}'


def write(path: Path, *entries: str) -> str:
    lines = ",\n".join(entries)
    path.write_text(f'{{"schema": "lintarsia/baseline/1", "accepted": [\n{lines}\n]}}\n', "utf-8")
    return str(path)


def test_it_lists_what_stands_one_a_line_in_order(here: Path) -> None:
    """What the file itself accepts is not listed, and what no baseline may accept."""
    assert write_out(report(*FOUND), "kept.json") == TEXT
    assert write_out(report(), "kept.json") == '{"schema": "lintarsia/baseline/1", "accepted": [\n\n]}\n'


def test_names_are_from_its_own_folder(here: Path) -> None:
    lines = write_out(report(*FOUND), "b/kept.json").splitlines()
    assert [line.partition(", ")[0] for line in lines[1:-1]] == [
        '{"file": "../one.chart.yaml"',
        '{"file": "../one.chart.yaml"',
        '{"file": "two.chart.yaml"',
    ]


def test_entries_of_files_that_were_not_looked_at_stay_while_the_files_do(here: Path) -> None:
    old = write(
        here / "old.json", kept("kept.chart.yaml", "11"), kept("gone.chart.yaml", "22"), kept("one.chart.yaml", "33")
    )
    text = write_out(report(*FOUND), "new.json", read_baseline(old))
    assert text == TEXT.replace('{"file": "one', kept("kept.chart.yaml", "11") + ',\n{"file": "one', 1)


def test_it_is_read_with_the_line_of_each_entry(here: Path) -> None:
    (here / "kept.json").write_text(TEXT, "utf-8")
    read = read_baseline("kept.json")
    assert read.path == "kept.json"
    assert read.entries == {
        BaselineEntry("b/two.chart.yaml", "colour/unused", "cc", "colour/unused é cc"): 2,
        BaselineEntry("one.chart.yaml", "colour/unused", "bb", "colour/unused é bb"): 3,
        BaselineEntry("one.chart.yaml", "float/too-long", "ff", "float/too-long é ff"): 4,
    }
    (here / "flat.json").write_text(TEXT.replace("\n", " "), "utf-8")
    assert set(read_baseline("flat.json").entries.values()) == {1}
    assert accepted_of(read, "one.chart.yaml") == {Mark("colour/unused", "bb"), Mark("float/too-long", "ff")}
    assert accepted_of(read, os.path.abspath("b/two.chart.yaml")) == {Mark("colour/unused", "cc")}
    assert accepted_of(read, "kept.chart.yaml") == frozenset()


def test_what_it_lists_is_accepted_and_what_it_does_not_is_new(here: Path) -> None:
    (here / "kept.json").write_text(TEXT, "utf-8")
    more = result("one.chart.yaml", "colour/unused", "ee", 1)
    held = hold_against(report(*FOUND, more), read_baseline("kept.json"), STALE)
    assert [(r.file, r.fingerprint, r.suppressed, r.justification, r.baseline) for r in held.results] == [
        ("b/two.chart.yaml", "cc", True, "accepted in kept.json", "unchanged"),
        ("b/two.chart.yaml", "dd", False, "", "new"),
        ("one.chart.yaml", "ee", False, "", "new"),
        ("one.chart.yaml", "ab", True, "", "new"),
        ("one.chart.yaml", "ff", True, "accepted in kept.json", "unchanged"),
        ("one.chart.yaml", "bb", True, "accepted in kept.json", "unchanged"),
    ]
    assert held.rules == {**RULES, "baseline/stale": STALE}


def test_what_the_file_accepts_itself_keeps_its_own_reason(here: Path) -> None:
    path = write(here / "kept.json", kept("one.chart.yaml", "bb"))
    own = replace(FOUND[1], suppressed=True, justification="for the second sleeve")
    assert hold_against(report(own), read_baseline(path), STALE).results == (own,)


def test_what_may_not_be_accepted_stands_though_it_is_listed(here: Path) -> None:
    entry = kept("b/two.chart.yaml", "dd").replace("colour/unused", "file/torn")
    held = hold_against(report(FOUND[4]), read_baseline(write(here / "kept.json", entry)), STALE)
    assert held.results == (FOUND[4],)


def test_an_entry_that_nothing_meets_is_told_once_with_its_line(here: Path) -> None:
    """Of a file that was looked at or is gone; of no other."""
    entries = (kept("kept.chart.yaml", "11"), kept("gone.chart.yaml", "22"), kept("one.chart.yaml", "33"))
    path = write(here / "b" / "kept.json", *(entry.replace('"file": "', '"file": "../') for entry in entries))
    held = hold_against(report(), read_baseline(path), STALE)
    assert held.results == tuple(
        Result(
            "baseline/stale",
            "stale",
            Level.NOTE,
            f"colour/unused in ../{file} is accepted here but no longer found (m)",
            "b/kept.json",
            Region(line, 1, line, 1),
            remedy="run again",
            fingerprint=mark,
        )
        for file, line, mark in (("gone.chart.yaml", 3, "22"), ("one.chart.yaml", 4, "33"))
    )
    assert hold_against(report(), read_baseline(path), None).results == ()
    assert hold_against(report(), read_baseline(path), None).rules == RULES
    graver = replace(STALE, level=Level.ERROR)
    assert {r.level for r in hold_against(report(), read_baseline(path), graver).results} == {Level.ERROR}


def test_it_is_held_against_its_own_files_alone(here: Path) -> None:
    (here / "kept.json").write_text(TEXT, "utf-8")
    held = hold_against(report(*FOUND), read_baseline("kept.json"), None, {"one.chart.yaml"})
    assert [(r.fingerprint, r.baseline) for r in held.results] == [
        ("cc", ""),
        ("dd", ""),
        ("ab", "new"),
        ("ff", "unchanged"),
        ("bb", "unchanged"),
    ]


GOOD = kept("one.chart.yaml", "11")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{", "kept.json:1:2: the baseline is not JSON (Expecting property name enclosed in double quotes)"),
        ("[]", '\'kept.json\' is no baseline: expected "schema": "lintarsia/baseline/1"'),
        ('{"schema": "x"}', '\'kept.json\' is no baseline: expected "schema": "lintarsia/baseline/1"'),
        (
            '{"schema": "lintarsia/baseline/1"}',
            "'kept.json' is no baseline: \"accepted\" must list entries with file, rule, fingerprint, message",
        ),
        (
            '{"schema": "lintarsia/baseline/1", "accepted": [' + GOOD + ', {"file": "x"}]}',
            "'kept.json' is no baseline: \"accepted\" must list entries with file, rule, fingerprint, message",
        ),
        ("\udcff", "the baseline 'kept.json' is not JSON in UTF-8"),
        (None, "there is no baseline 'kept.json'; --update makes it"),
    ],
)
def test_what_is_no_baseline(here: Path, text: str | None, told: str) -> None:
    if text is not None:
        (here / "kept.json").write_bytes(text.encode("utf-8", "surrogateescape"))
    with pytest.raises(Trouble) as trouble:
        read_baseline("kept.json")
    assert str(trouble.value) == told


def test_one_that_is_too_large(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (here / "kept.json").write_text(TEXT, "utf-8")
    size = len(TEXT.encode())
    put: Callable[[int], None] = lambda most: monkeypatch.setattr("lintarsia.result.baseline.MOST_BYTES", most)  # noqa: E731
    put(size)
    assert len(read_baseline("kept.json").entries) == 3
    put(size - 1)
    with pytest.raises(
        Trouble, match=f"^the baseline 'kept.json' has more than {size - 1} bytes, which is more than any"
    ):
        read_baseline("kept.json")


def test_one_that_is_a_folder(here: Path) -> None:
    with pytest.raises(Trouble) as trouble:
        read_baseline("b")
    assert str(trouble.value) == "the baseline 'b' cannot be read (it is a folder; expected a file)"
