"""Rules in Python files that the settings name: what they can do, and how each slip in them is told."""

import os
import pickle
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.cli.main import main
from lintarsia.engine import check_chart, check_paths
from lintarsia.ground.trouble import Trouble
from lintarsia.result import Level, Result
from lintarsia.settings import Settings, find_settings
from lintarsia.settings.reader import read_settings

RULE = """
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo("ours/title", Level.NOTE, "a title", "why", "remedy", {"long": "a long one"})


def check(work, options):
    print("looking")
    BODY
"""
FOUND = 'yield Finding("long", f"the title is {work.chart.title}", work.chart.places.value("title"))'

Make = Callable[..., Settings]


@pytest.fixture
def make(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Make:
    """Settings beside a rule whose check has the body given."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("LINTARSIA_REFUSE_OUTSIDE_RULES", raising=False)

    def make(body: str = FOUND, *, text: str | None = None, settings: str = "local-rules: [ours.py]\n") -> Settings:
        (tmp_path / "ours.py").write_text(RULE.replace("BODY", body) if text is None else text, "utf-8")
        (tmp_path / "lintarsia.yaml").write_text(settings, "utf-8")
        return find_settings(str(tmp_path))

    return make


def check(settings: Settings, write_chart: Callable[..., Path]) -> list[Result]:
    file = write_chart(grid="short")  # a fault of the house's own beside
    return [r for r in check_chart(str(file), None, settings).results if r.rule != "grid/stitch-count"]


def test_a_local_rule_is_a_rule(
    make: Make, write_chart: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    (result,) = check(make(), write_chart)
    assert (result.rule, result.key, result.level) == ("ours/title", "long", Level.NOTE)
    assert result.message == "the title is Toy"
    assert (result.region.line, result.region.column) == (2, 8)
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "looking\n"), "what a rule prints must not get into a report"


def test_nothing_is_loaded_that_is_not_named(make: Make, tmp_path: Path) -> None:
    make(text=f"open({str(tmp_path / 'ran')!r}, 'w').close()\nraise SystemExit", settings="block: error\n")
    assert not (tmp_path / "ran").exists()


def test_nothing_is_written_beside_it(make: Make, tmp_path: Path) -> None:
    make()
    assert sorted(os.listdir(tmp_path)) == ["lintarsia.yaml", "ours.py"]


def test_a_changed_file_is_loaded_anew(make: Make, write_chart: Callable[..., Path]) -> None:
    check(make(), write_chart)
    (result,) = check(make(FOUND.replace("title is", "title was")), write_chart)
    assert result.message == "the title was Toy"


def test_the_file_may_state_several_rules_and_options_of_its_own_types(make: Make) -> None:
    second = (
        "\nfrom dataclasses import dataclass\nfrom enum import Enum\nfrom lintarsia.rules.base import Rule\n"
        'class Hue(Enum):\n    WARM = "warm"\n    COOL = "cool"\n'
        "@dataclass(frozen=True)\nclass More:\n    hue: Hue = Hue.WARM\n"
        'OTHER = RuleInfo("ours/hue", Level.OFF, "a hue", "why", "remedy", {"warm": "a warm one"})\n'
        "RULES = [Rule(INFO, Options, check), Rule(OTHER, More, check)]\n"
    )
    text = RULE.replace("BODY", FOUND) + second
    settings = make(text=text, settings="local-rules: [ours.py]\nrules: {ours/hue: {options: {hue: cool}}}\n")
    assert {"ours/title", "ours/hue"} <= set(settings.rulebook.names)
    assert settings.rules["ours/hue"].values["hue"].value == "cool"  # type: ignore[attr-defined]
    again = pickle.loads(pickle.dumps(settings))
    assert again.rules["ours/hue"].values == settings.rules["ours/hue"].values
    assert again.rulebook.names == settings.rulebook.names


@pytest.mark.parametrize("start", ["fork", "spawn"])
def test_other_processes_know_it(
    make: Make, write_chart: Callable[..., Path], monkeypatch: pytest.MonkeyPatch, start: str
) -> None:
    monkeypatch.setattr("lintarsia.ground.pools.START", start)
    make()
    for number in range(3):
        write_chart(f"{number}.chart.yaml")
    assert check_paths(["."], jobs=2).results == check_paths(["."], jobs=1).results


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("yield 1 / 0", "failed on this chart (ZeroDivisionError: division by zero, ours.py line 11)"),
        ("return None", "(TypeError: 'NoneType' object is not iterable)"),
        ("yield 'text'", "(TypeError: it found 'text', which is no Finding)"),
        ("raise SystemExit(0)", "(RuntimeError: it tried to end the run)"),
        ("return check(work, options)", "(RecursionError: maximum recursion depth exceeded"),
        ("raise StopIteration", "(RuntimeError: it raised StopIteration)"),
        (FOUND.replace('"long"', '"lnog"'), "(ValueError: its key 'lnog' is not one of long)"),
        (FOUND.replace('work.chart.places.value("title")', "(1, 1, 1, 1)"), "not a Region of whole numbers from 1)"),
        (FOUND[:-1] + ", 99)", "(ValueError: its row is 99, not a whole number from 1 to 20)"),
        (FOUND[:-1] + ", work.steps.sum())", "(ValueError: its row is "),
        (FOUND[:-1] + ", 1, (1, 29))", "(ValueError: its stitch is 29, not a whole number from 1 to 28)"),
        (FOUND[:-1] + ", level='error')", "(ValueError: its level is 'error', not one of lintarsia.result.Level)"),
        (FOUND[:-1] + ", stitches=(1, 2))", "(ValueError: stitches are not (first, last) of a row)"),
    ],
)
def test_a_rule_that_fails_is_at_fault_itself_and_hides_nothing(
    make: Make, write_chart: Callable[..., Path], body: str, told: str
) -> None:
    settings = make(body)
    (result,) = check(settings, write_chart)
    assert (result.rule, result.level) == ("engine/rule-failed", Level.ERROR)
    assert result.message.startswith("the rule ours/title, in ours.py, failed on this chart (")
    assert result.message.endswith("); the chart is not to blame")
    assert told in result.message
    assert result.remedy.startswith("tell whoever made the rule; until it is mended, ours/title: off")
    every = check_chart(str(write_chart(grid="short")), None, settings).results
    assert [r.rule for r in every if r.rule.startswith("grid/")] == ["grid/stitch-count"]


def test_what_was_found_before_a_failure_is_kept(make: Make, write_chart: Callable[..., Path]) -> None:
    found = check(make(FOUND + "\n    raise OSError('gone')"), write_chart)
    assert sorted(result.rule for result in found) == ["engine/rule-failed", "ours/title"]


def test_the_same_failure_keeps_its_mark(make: Make, write_chart: Callable[..., Path]) -> None:
    (one,) = check(make("raise ValueError('one')"), write_chart)
    (two,) = check(make("x = 1\n    raise ValueError('two')"), write_chart)
    assert one.fingerprint == two.fingerprint, "the words of a failure and its line come and go"


INFO = 'RuleInfo("ours/title", Level.NOTE, "a title", "why", "remedy", {"long": "a long one"})'


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("INFO = ", "NOTHING = ", "are not in order: it has neither INFO nor a list RULES"),
        ("INFO = ", "RULES = 3 or ", "RULES is not a list of rules"),
        ("INFO = ", "INFO = 'x' or ", "has no INFO that is a RuleInfo"),
        ('"ours/title"', '"Ours"', "'Ours' is no rule name; expected group/name"),
        ('"ours/title"', '"grid/title"', "begins with grid/, which is the house's own"),
        ('"ours/title"', '"grid/stitch-count"', "begins with grid/, which is the house's own"),
        ("Level.NOTE", '"note"', "the level of ours/title is 'note', not one of lintarsia.result.Level"),
        ('"why"', '" "', "ours/title says nothing in why"),
        ('{"long": "a long one"}', "{}", "ours/title has no keys"),
        ('{"long": "a long one"}', '{"A b": "a long one"}', "'A b' is no key of ours/title"),
        ("def check", "def chekc", "ours/title has no function check(work, options)"),
        ("Options = NoOptions", "Options = dict", "the Options of ours/title are not a dataclass"),
        (
            "Options = NoOptions",
            "from dataclasses import make_dataclass\nOptions = make_dataclass('Options', [('depth', int)])",
            "the option depth of ours/title has no default",
        ),
        (
            "Options = NoOptions",
            "from dataclasses import field, make_dataclass\n"
            "Options = make_dataclass('Options', [('depth', bytes, field(default=b''))])",
            "the option depth of ours/title has a type that settings cannot state (<class 'bytes'>)",
        ),
        ("def check", "def (", "cannot be loaded (SyntaxError: invalid syntax, ours.py line 9)"),
        ("def check", "import no_such_thing\ndef check", "No module named 'no_such_thing', ours.py line 9)"),
        ("def check", "raise SystemExit\ndef check", "cannot be loaded (RuntimeError: it tried to end the run)"),
        ("def check", "RULE_API = 2\ndef check", "is written for rule API 2; this lintarsia has rule API 1"),
    ],
)
def test_a_file_that_is_not_in_order(make: Make, old: str, new: str, told: str) -> None:
    text = RULE.replace("BODY", FOUND)
    assert old in text
    with pytest.raises(Trouble) as trouble:
        make(text=text.replace(old, new))
    assert str(trouble.value).startswith("lintarsia.yaml:1:15: ")
    assert told in str(trouble.value)
    assert "\n" not in str(trouble.value)


@pytest.mark.parametrize(
    ("settings", "place", "told"),
    [
        ("local-rules: [none.py]\n", "1:15", "there is no file 'none.py' in the folder of these settings"),
        ("local-rules: [ours.txt]\n", "1:15", "a Python file such as tools/our_rules.py"),
        ("local-rules: [../ours.py]\n", "1:15", "'../ours.py' is outside the folder of these settings"),
        ("local-rules: [/etc/ours.py]\n", "1:15", "a Python file such as tools/our_rules.py"),
        ("local-rules: [link.py]\n", "1:15", "'link.py' is outside the folder of these settings"),
        ("local-rules:\n  - ours.py\n  - ./ours.py\n", "3:5", "the local rules ./ours.py are named twice"),
        ("local-rules: ours.py\n", "1:14", "a list of Python files with rules"),
        ("rule-packages: [grid]\n", "1:17", "'grid' is a group of the house's own rules"),
        ("rule-packages: [Mill]\n", "1:17", "the name of a rule package such as mill"),
        ("local-rules: [ours.py]\nrules: {ours/titel: off}\n", "2:9", "did you mean 'ours/title'?"),
        ("local-rules: [folder.py]\n", "1:15", "there is no file 'folder.py'"),
    ],
)
def test_settings_that_are_not_in_order(make: Make, tmp_path: Path, settings: str, place: str, told: str) -> None:
    elsewhere = tmp_path.parent / "elsewhere.py"
    elsewhere.write_text(RULE, "utf-8")
    (tmp_path / "link.py").symlink_to(elsewhere)
    (tmp_path / "folder.py").mkdir()
    with pytest.raises(Trouble) as trouble:
        make(settings=settings)
    assert f"lintarsia.yaml:{place}: " in str(trouble.value)
    assert told in str(trouble.value)


def test_a_failed_file_leaves_no_module_behind(make: Make) -> None:
    before = set(sys.modules)
    with pytest.raises(Trouble):
        make(text="raise ValueError")
    assert {name for name in set(sys.modules) - before if name.startswith("lintarsia_local")} == set()


def test_the_path_starts_from_the_settings_file_wherever_the_run_does(
    make: Make, write_chart: Callable[..., Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make()
    write_chart("deep/er/a.chart.yaml")
    monkeypatch.chdir(tmp_path / "deep" / "er")
    assert "ours/title" in {result.rule for result in check_paths(["."]).results}


def test_it_runs_after_the_house_s_own_and_cannot_change_the_chart(
    make: Make, write_chart: Callable[..., Path], tmp_path: Path
) -> None:
    settings = make("work.chart.grid.cells[:] = 0\n    " + FOUND)
    checks = settings.armed(str(tmp_path / "a.chart.yaml")).checks
    assert checks[-1].name == "ours/title"
    assert "supply/row-limit" in {check.name for check in checks[:-1]}
    (result,) = check(settings, write_chart)
    assert "ValueError: assignment destination is read-only, ours.py line 11" in result.message


def test_settings_named_on_the_command_line_bring_the_rules_beside_them(
    make: Make, write_chart: Callable[..., Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make()
    (tmp_path / "elsewhere").mkdir()
    write_chart("elsewhere/a.chart.yaml")
    monkeypatch.chdir(tmp_path / "elsewhere")
    settings = read_settings(os.path.join("..", "lintarsia.yaml"), root=os.getcwd())
    assert "ours/title" in {result.rule for result in check_paths(["."], settings=settings).results}


def test_settings_out_of_the_way_keep_their_rules_to_themselves(
    make: Make, write_chart: Callable[..., Path], tmp_path: Path
) -> None:
    make()
    write_chart("a.chart.yaml")
    write_chart("other/b.chart.yaml")
    (tmp_path / "other" / "lintarsia.yaml").write_text("block: error\n", "utf-8")
    results = [r for r in check_paths(["."]).results if r.rule == "ours/title"]
    assert [r.file for r in results] == ["a.chart.yaml"]


def test_its_fix_is_made_like_any_other(make: Make, write_chart: Callable[..., Path]) -> None:
    body = (
        "from lintarsia.result import Edit, Fix\n"
        "    place = work.chart.places.value('title')\n"
        "    if work.chart.title == 'Toy':\n"
        "        fix = Fix('say more', (Edit(place, 'Toy chart'),))\n"
        "        yield Finding('long', 'the title is short', place, fixes=(fix,))"
    )
    make(body)
    file = write_chart("a.chart.yaml", grid="clean")
    before = file.read_text("utf-8")
    assert main(["check", "a.chart.yaml", "--fix"]) == 0
    assert file.read_text("utf-8") == before.replace("title: Toy", "title: Toy chart")


def test_a_pattern_rule_looks_at_patterns_alone(make: Make, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    text = RULE.replace("def check(work, options)", "def check_pattern(work, options)").replace(
        "BODY", "from lintarsia.pattern.work import About\n"
        "    yield About(Finding('long', work.pattern.title, work.pattern.places.value('title')))\n"
        "    yield Finding('long', 'no piece', work.pattern.places.value('title'))"
    )  # fmt: skip
    settings = make(text=text)
    chart = write_chart("a.chart.yaml")
    assert "ours/title" not in {r.rule for r in check_chart(str(chart), None, settings).results}
    pattern = tmp_path / "a.pattern.yaml"
    pattern.write_text(
        "lintarsia-pattern: 1\ntitle: Toys\nsizes: [one]\npieces: {side: {chart: a.chart.yaml, cast-on: 4, rows: 3}}\n"
    )
    results = {r.rule: r for r in check_chart(str(pattern), None, settings).results}
    assert results["ours/title"].message == "Toys"
    told = results["engine/rule-failed"].message
    assert told.startswith("the rule ours/title, in ours.py, failed on this pattern (TypeError: it found Finding(")
    assert told.endswith(", which is no About); the pattern is not to blame")


def test_failures_block_unless_the_settings_say_otherwise(
    make: Make, write_chart: Callable[..., Path], capfd: pytest.CaptureFixture[str]
) -> None:
    write_chart("a.chart.yaml", grid="clean")
    write_chart("b.chart.yaml", grid="clean")
    make("raise OSError('gone')")
    assert main(["check", ".", "--format", "text", "--jobs", "2"]) == 1
    assert capfd.readouterr().out.endswith("2 charts: 2 errors\n")
    make("raise OSError('gone')", settings="local-rules: [ours.py]\nrules: {engine/rule-failed: warning}\n")
    assert main(["check", ".", "--format", "text"]) == 0
    make("raise OSError('gone')", settings="local-rules: [ours.py]\nrules: {ours/title: off}\n")
    assert main(["check", ".", "--format", "text"]) == 0
    assert capfd.readouterr().out.endswith("2 charts: nothing to mend\n")
