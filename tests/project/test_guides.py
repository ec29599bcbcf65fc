"""The guides keep their word: the rule in DEVELOPERS.md works, README's commands are those that CI runs."""

import importlib.util
import re
import tomllib
from pathlib import Path
from types import ModuleType

import lintarsia
from lintarsia.cli import exits
from lintarsia.cli.main import COMMANDS
from lintarsia.engine import check_chart
from lintarsia.result import Region, Result
from lintarsia.rules.base import Rule
from lintarsia.rules.rulebook import Rulebook, house_rulebook
from lintarsia.settings import Settings

ROOT = Path(__file__).parents[2]


def _example(name: str) -> str:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    found = re.search(rf"<!-- {name} example -->\n```\w+\n(.*?)```", text, re.DOTALL)
    assert found, f"DEVELOPERS.md has no {name} example"
    return found[1]


def _module(code: str, folder: Path) -> ModuleType:
    file = folder / "area_last_row_speck.py"
    file.write_text(code, encoding="utf-8")
    spec = importlib.util.spec_from_file_location(file.stem, file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_rule_of_the_guide_works_and_is_under_forty_lines(tmp_path: Path) -> None:
    code = _example("rule")
    assert len(code.splitlines()) < 40
    module = _module(code, tmp_path)
    house, rule = house_rulebook(), Rule(module.INFO, module.Options, module.check)
    names = (*house.names, rule.info.name)
    book = Rulebook(names, lambda name: rule if name == rule.info.name else house.load(name), house.kinds)
    settings = Settings(root=str(tmp_path), rulebook=book)
    results = check_chart("speck.chart.yaml", _example("chart").encode(), settings).results
    own = [result for result in results if result.rule == "area/last-row-speck"]
    assert own == [
        Result(
            rule="area/last-row-speck",
            key="speck",
            level=module.INFO.level,
            message="row 2 (WS) is the last row and has a single W in stitch 3",
            file="speck.chart.yaml",
            region=Region(9, 6, 9, 7),
            row=2,
            stitches=(3, 3),
            remedy="leave the speck out, or add a row above it",
            fingerprint=own[0].fingerprint,
        )
    ]


def test_readme_has_the_two_commands_each_on_one_line() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert blocks[:2] == [
        "python3 -c 'import sys; sys.exit(sys.version_info < (3, 11) and \"lintarsia needs Python 3.11 or later\")'"
        ' && python3 -m venv .venv && .venv/bin/pip install -q ".[site]" && .venv/bin/lintarsia check examples'
        " && .venv/bin/lintarsia site examples --output report"
        ' && echo "now open report/index.html in a browser"\n',
        "sh tests/run\n",
    ]
    assert "\nsh tests/run --install" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_readme_chart_is_clean(tmp_path: Path) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    found = re.search(r"```yaml\n(lintarsia: 1\n.*?)```", text, re.DOTALL)
    assert found
    assert check_chart("sail.chart.yaml", found[1].encode(), Settings(root=str(tmp_path))).results == ()


def test_readme_settings_are_in_order(tmp_path: Path) -> None:
    from lintarsia.settings.reader import read_settings

    text = (ROOT / "README.md").read_text(encoding="utf-8")
    found = re.search(r"```yaml\n(charts: .*?)```", text, re.DOTALL)
    assert found
    (tmp_path / "lintarsia.yaml").write_text(found[1], encoding="utf-8")
    settings = read_settings(str(tmp_path / "lintarsia.yaml"))
    assert settings.rules["area/single-stitch"].values == {"corners": False}


def test_the_package_says_which_version_is_built_and_the_changelog_has_it() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert settings["project"]["dynamic"] == ["version"]
    assert settings["tool"]["hatch"]["version"] == {"path": "lint/lintarsia/__init__.py"}
    assert f"## {lintarsia.__version__}" in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")


def test_the_changelog_names_every_command() -> None:
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert [name for name in COMMANDS if f"`lintarsia {name}" not in text] == []


def test_the_documentation_has_every_exit_status() -> None:
    page = (ROOT / "docs" / "outputs.md").read_text(encoding="utf-8")
    table = {int(status) for status in re.findall(r"^\| (\d+) \|", page, re.MULTILINE)}
    assert table == {value for name, value in vars(exits).items() if name.isupper()}
