"""Rule packages that are not in order: what is said of each. A whole one is built and used in tests/project."""

from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.ground.trouble import Trouble
from lintarsia.settings import Settings, find_settings

HEAD = """
from types import SimpleNamespace
from lintarsia.result import Level, RuleInfo
from lintarsia.rules.base import NoOptions, Rule

def rule(name):
    return Rule(RuleInfo(name, Level.NOTE, "a", "b", "c", {"d": "e"}), NoOptions, lambda work, options: iter(()))
"""

Install = Callable[..., None]
Read = Callable[[str], Settings]


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Install:
    """Put a distribution on the import path: its name, the module it has, and the entry point's name."""

    def install(name: str, text: str, point: str = "mill") -> None:
        module = f"{name.replace('-', '_')}_{tmp_path.name}"
        folder = tmp_path / "path" / name
        info = folder / f"{name}-1.0.dist-info"
        info.mkdir(parents=True)
        (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n", "utf-8")
        (info / "entry_points.txt").write_text(f"[lintarsia.rules]\n{point} = {module}\n", "utf-8")
        (folder / f"{module}.py").write_text(HEAD + text, "utf-8")
        monkeypatch.syspath_prepend(folder)

    return install


@pytest.fixture
def read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Read:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("LINTARSIA_REFUSE_OUTSIDE_RULES", raising=False)

    def read(text: str) -> Settings:
        (tmp_path / "lintarsia.yaml").write_text(text, "utf-8")
        return find_settings(str(tmp_path))

    return read


def refused(read: Read, text: str = "rule-packages: [mill]\n") -> str:
    with pytest.raises(Trouble) as trouble:
        read(text)
    return str(trouble.value).removeprefix("lintarsia.yaml:1:17: ")


def test_one_that_is_in_order(install: Install, read: Read) -> None:
    install("mill-rules", 'RULE_API = 1\nRULES = [rule("mill/one"), rule("mill/two")]\n')
    book = read("rule-packages: [mill]\n").rulebook
    assert {"mill/one", "mill/two", "grid/stitch-count"} <= set(book.names)
    assert book.load("mill/one").origin == "of mill-rules 1.0"
    assert book.load("grid/stitch-count").origin == ""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            'RULES = [rule("mill/one")]',
            "the rule package 'mill' of mill-rules 1.0 states no RULE_API; this lintarsia has rule API 1",
        ),
        (
            'RULE_API = 2\nRULES = [rule("mill/one")]',
            "the rule package 'mill' of mill-rules 1.0 is written for rule API 2; this lintarsia has rule API 1",
        ),
        (
            'RULE_API = 1\nRULES = [rule("dye/one")]',
            "the rule package 'mill' of mill-rules 1.0 is not in order: "
            "the rule name 'dye/one' does not begin with mill/",
        ),
        (
            "RULE_API = 1\nRULES = []",
            "the rule package 'mill' of mill-rules 1.0 is not in order: RULES is not a list of rules",
        ),
        (
            "RULE_API = 1\nRULES = [7]",
            "the rule package 'mill' of mill-rules 1.0 is not in order: 7 has no INFO that is a RuleInfo",
        ),
        (
            'RULE_API = 1\nRULES = [rule("mill/one"), rule("mill/one")]',
            "the rule name 'mill/one' is taken by a rule of mill-rules 1.0",
        ),
    ],
)
def test_one_that_is_not(install: Install, read: Read, text: str, told: str) -> None:
    install("mill-rules", text)
    assert refused(read) == told


def test_one_that_cannot_be_imported(install: Install, read: Read) -> None:
    install("mill-rules", "\nimport no_such_module\n")
    told = refused(read)
    assert told.startswith("the rule package 'mill' (mill-rules 1.0) cannot be loaded (ModuleNotFoundError: ")
    assert told.endswith(" line 9)")


def test_two_of_the_same_name(install: Install, read: Read) -> None:
    install("mill-rules", 'RULE_API = 1\nRULES = [rule("mill/one")]\n')
    install("windmill", 'RULE_API = 1\nRULES = [rule("mill/one")]\n')
    assert refused(read) == "several packages call themselves 'mill': mill-rules 1.0, windmill 1.0"


def test_one_named_twice(install: Install, read: Read) -> None:
    install("mill-rules", 'RULE_API = 1\nRULES = [rule("mill/one")]\n')
    with pytest.raises(Trouble, match=r"^lintarsia\.yaml:1:23: the rule package 'mill' is named twice$"):
        read("rule-packages: [mill, mill]\n")


def test_one_that_takes_a_group_of_the_house(install: Install, read: Read) -> None:
    install("grid-rules", 'RULE_API = 1\nRULES = [rule("grid/one")]\n', point="grid")
    told = refused(read, "rule-packages: [grid]\n")
    assert told == "'grid' is a group of the house's own rules, so no rule package can be called that"


def test_local_rules_may_not_pass_for_those_of_a_package(install: Install, read: Read, tmp_path: Path) -> None:
    install("mill-rules", 'RULE_API = 1\nRULES = [rule("mill/one")]\n')
    (tmp_path / "ours.py").write_text(HEAD + 'RULES = [rule("mill/ours")]\n', "utf-8")
    with pytest.raises(Trouble, match=r"the rule name 'mill/ours' in ours\.py begins as those of the rule package"):
        read("rule-packages: [mill]\nlocal-rules: [ours.py]\n")


def test_only_those_named_are_imported(install: Install, read: Read) -> None:
    install("dye-rules", "raise SystemExit('imported')\n", point="dye")
    install("mill-rules", 'RULE_API = 1\nRULES = [rule("mill/one")]\n')
    assert "mill/one" in read("rule-packages: [mill]\n").rulebook
    assert refused(read, "rule-packages: [mil]\n") == "there is no rule package 'mil'; did you mean 'mill'?"
    assert refused(read, "rule-packages: [xyzzy]\n") == "there is no rule package 'xyzzy'; there are dye, mill"
