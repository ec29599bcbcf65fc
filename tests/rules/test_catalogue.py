"""A rule is a file, a line in the catalogue, and cases. What is missing is said in plain words."""

import re
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path

import pytest

import lintarsia.rules
from casefiles import every_case
from folding import each
from lintarsia.result import Basis, Kind, Level, Maker
from lintarsia.rules import catalogue

RULES = Path(lintarsia.rules.__file__).parent
CASES = every_case()
KEPT_BY_EVERY_RELEASE = {
    "file/unreadable", "file/schema", "grid/stitch-count", "grid/unknown-colour", "colour/no-supply", "colour/unused",
    "area/single-stitch", "supply/row-limit", "supply/too-few", "supply/too-short", "supply/steep-edge",
    "float/too-long", "round/intarsia",
}  # fmt: skip


def module_name(rule: str) -> str:
    return rule.replace("-", "_") + ".py"


def test_the_names_that_every_release_keeps_are_there() -> None:
    missing = sorted(KEPT_BY_EVERY_RELEASE - set(catalogue.NAMES))
    assert not missing, f"the catalogue has lost {', '.join(missing)}; people have these names in their settings"


def test_the_catalogue_is_sorted() -> None:
    assert list(catalogue.NAMES) == sorted(catalogue.NAMES)


def test_every_rule_file_is_in_the_catalogue() -> None:
    """A rule file is one that has an INFO."""
    files = [file for file in RULES.rglob("*.py") if re.search(r"^INFO\b", file.read_text("utf-8"), re.MULTILINE)]
    forgotten = sorted({str(f.relative_to(RULES)) for f in files} - {module_name(name) for name in catalogue.NAMES})
    assert not forgotten, f"rules/catalogue.py has no line for {', '.join(forgotten)}"


def test_every_case_belongs_to_a_rule() -> None:
    strays = sorted({case.rule for case in CASES} - set(catalogue.NAMES))
    assert not strays, f"tests/cases has cases of {', '.join(strays)}, which the catalogue does not have"


def test_a_name_that_is_not_there_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        catalogue.load("grid/no-such-rule")


def test_a_rule_that_cannot_be_imported_is_missed_loudly(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(catalogue, "NAMES", (*catalogue.NAMES, "grid/lost"))
    with pytest.raises(ImportError):
        catalogue.load("grid/lost")


@each("name", sorted(catalogue.NAMES))
def test_a_rule_says_all_it_should_of_itself(name: str) -> None:
    rule = catalogue.load(name)
    info = rule.info
    checks = [check for kind in rule.kinds if (check := rule.check_of(kind)) is not None]
    assert info.name == name, f"{module_name(name)} calls itself {info.name}; the catalogue calls it {name}"
    assert re.fullmatch(r"[a-z]+/[a-z]+(-[a-z]+)*", name)
    for part in ("summary", "why", "remedy"):
        text = getattr(info, part)
        assert text.strip(), f"{name}: its {part} is missing"
        assert "  " not in text, f"{name}: its {part} has two spaces"
    assert info.summary[0].islower(), f"{name}: its summary begins in lower case and has no full stop"
    assert not info.summary.endswith("."), f"{name}: its summary begins in lower case and has no full stop"
    assert len(info.summary) <= 100, f"{name}: its summary is longer than a line"
    assert len(info.why) >= 80, f"{name}: its why does not say what it means for the knitter"
    assert info.remedy[0].islower(), f"{name}: its remedy begins in lower case"
    assert info.keys, f"{name}: it has no keys; each way it can fail needs one"
    for key, phrase in info.keys.items():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", key), f"{name}: key {key!r} is not written-like-this"
        assert phrase, f"{name}: key {key!r} needs a phrase"
    assert info.sources, f"{name}: its sources are missing; write `common practice` if there is none"
    assert all(info.sources), f"{name}: one of its sources is empty"
    assert info.level is not Level.OFF or "level" in (checks[0].__doc__ or ""), f"{name}: say why it is off"
    assert all(check.__doc__ for check in checks), f"{name}: its check has no docstring"


@each("name", sorted(catalogue.NAMES))
def test_options_are_frozen_defaulted_and_explained(name: str) -> None:
    options = catalogue.load(name).options
    assert is_dataclass(options), f"{name}: Options is no dataclass"
    assert vars(options)["__dataclass_params__"].frozen, f"{name}: Options is not frozen"
    for field in fields(options):
        assert field.default is not MISSING or field.default_factory is not MISSING, (
            f"{name}: {field.name} has no default"
        )
        assert field.metadata.get("help"), f"{name}: option {field.name} has no help; use field(metadata={{'help': …}})"
    options()


@each("name", sorted(catalogue.NAMES))
def test_a_rule_has_a_clean_case_and_one_for_each_key(name: str) -> None:
    """Results that reader, engine and patterns make are tested where they are made; cases of theirs are examples."""
    if catalogue.load(name).check is None:
        return
    own = [case for case in CASES if case.rule == name]
    folder = f"tests/cases/{name}"
    assert any(case.clean for case in own), f"{folder} has no case where the rule must stay silent (expect: [])"
    shown = {result["key"] for case in own for result in case.expect}
    keys = set(catalogue.load(name).info.keys)
    missing = sorted(keys - shown)
    assert not missing, f"{folder} has no case for the key {', '.join(missing)}"
    unknown = sorted(shown - keys)
    assert not unknown, f"{name} reports {', '.join(unknown)}, which its INFO.keys do not have"


def test_case_names_state_their_situation() -> None:
    for case in CASES:
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", case.file.stem), f"{case.file}: use-a-name-like-this.yaml"
        assert len(case.name.split()) >= 3, f"{case.file}: the name is a phrase that states the situation"
    names = [(case.rule, case.name) for case in CASES]
    assert len(names) == len(set(names)), "two cases of a rule have the same name"


def test_the_catalogue_says_what_each_rule_says_of_itself() -> None:
    for name, kinds in catalogue.KINDS.items():
        rule = catalogue.load(name)
        assert rule.kinds == kinds, f"{name} stands in the wrong part of rules/catalogue.py"
        assert (rule.info.made_by is Maker.ENGINE) == (not kinds), f"{name}: made_by is not who makes its results"
        assert not kinds or rule.info.subjects == kinds, f"{name}: its subjects are not what it has checks for"


def test_a_rule_that_tells_lengths_judges_by_the_gauge() -> None:
    """By what its cases say: where a message has a unit, a stand-in gauge would make the number up."""
    unit = re.compile(r"\d (?:mm|cm|m|yd)\b")
    for name in catalogue.LISTS[(Kind.CHART,)]:
        said = [result["message"] for case in CASES if case.rule == name for result in case.expect]
        if any(unit.search(message) for message in said):
            assert Basis.GAUGE in catalogue.load(name).info.judges_by, f"{name} tells lengths: {said[0]}"
