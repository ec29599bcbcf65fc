"""Whoever works through a page gets what the page shows: commands are run, outputs compared, files used."""

import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from blocks import ADDRESS, ROOT, blocks, fits, stand_in, surroundings, told, work_through
from lintarsia.engine import check_chart
from lintarsia.ground.resources import resource
from lintarsia.publishing.site.plugin import Options
from lintarsia.settings import Settings

pytestmark = pytest.mark.slow


class _Plain(yaml.SafeLoader):
    """YAML whose `off` is a level, as the settings read it, and no truth value."""


_Plain.yaml_implicit_resolvers = {
    first: [(tag, told) for tag, told in kinds if not tag.endswith((":bool", ":timestamp"))]
    for first, kinds in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
_Plain.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(?:true|false)$"), ["t", "f"])

PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
RUN = [page for page in PAGES if told(page.read_text(encoding="utf-8"))]


def _named(page: Path) -> str:
    return page.stem


@pytest.mark.parametrize("page", RUN, ids=_named)
def test_a_page_shows_what_its_commands_print(page: Path, tmp_path: Path) -> None:
    markdown = page.read_text(encoding="utf-8")
    expected, printed = told(markdown), work_through(markdown, tmp_path)
    assert len(printed) == len(expected)
    for each, output in zip(expected, printed, strict=True):
        assert fits(each.told, output), f"$ {each.command}\n{output}\nthe page says:\n{each.told}"


def test_the_pages_meant_to_be_worked_through_have_commands() -> None:
    assert {page.stem for page in RUN} >= {"designer", "ci", "supplies", "outputs", "settings", "chart-format"}


@pytest.mark.parametrize("page", PAGES, ids=_named)
def test_every_block_is_held_to_account(page: Path) -> None:
    """A block is run, written to a file, or YAML that a schema knows; README's shell lines have tests of their own."""
    for block in blocks(page.read_text(encoding="utf-8")):
        if block.language == "sh":
            assert page.name == "README.md"  # the first is run below; the second is what runs this
        elif block.language != "console" and not block.name:
            assert block.language == "yaml", f"{page.name} has a {block.language!r} block that nothing looks at"
            assert _known_to(yaml.load(block.text, Loader=_Plain)), f"{page.name}: no schema takes\n{block.text}"


def _known_to(stated: Any) -> list[str]:
    """The formats that take what was stated as a part of theirs. A hook's configuration is not ours to check."""
    if isinstance(stated, dict) and "repos" in stated:
        return ["pre-commit"]
    if isinstance(stated, dict) and "plugins" in stated:
        (ours,) = [one["lintarsia"] for one in stated["plugins"] if isinstance(one, dict)]
        return ["mkdocs"] if _taken_by_the_plugin(ours) else []
    found = []
    for name in ("chart", "pattern", "settings"):
        schema = yaml.safe_load((resource("schema") / f"{name}.schema.json").read_text(encoding="utf-8"))
        schema.pop("required", None)
        if Draft202012Validator(schema).is_valid(stated):
            found.append(name)
    return found


def _taken_by_the_plugin(options: dict[str, Any]) -> bool:
    config = Options()
    config.load_dict(options)
    return config.validate() == ([], [])


def test_a_slip_in_a_block_of_yaml_is_seen() -> None:
    assert _known_to({"plugins": ["search", {"lintarsia": {"charts": ["charts"], "public": True}}]}) == ["mkdocs"]
    assert _known_to({"plugins": ["search", {"lintarsia": {"chart": ["charts"]}}]}) == []
    assert _known_to({"gauge": {"stitches": 22, "rows": 30, "over": "10 cm"}}) == ["chart"]
    assert _known_to({"guage": {"stitches": 22, "rows": 30, "over": "10 cm"}}) == []


def test_the_first_command_of_readme_works_in_a_fresh_copy(tmp_path: Path) -> None:
    (first, *_) = [b.text for b in blocks((ROOT / "README.md").read_text(encoding="utf-8")) if b.language == "sh"]
    env = surroundings(tmp_path / "home")
    stand_in(tmp_path / "home", env)
    subprocess.run(["git", "clone", "-q", ADDRESS, str(tmp_path / "copy")], env=env, check=True)
    done = subprocess.run(
        ["sh", "-c", first], cwd=tmp_path / "copy", env=env, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "nothing that blocks" in done.stdout or "nothing to mend" in done.stdout


@pytest.mark.parametrize(
    ("expected", "printed", "same"),
    [
        ("made pages\n", "made pages\n", True),
        ("made pages\n", "made page\n", False),
        ("made pages\n", "made pages\nand more\n", False),
        ("took … rows\n", "took 12 rows\n", True),
        ("took … rows\n", "took 12\nrows\n", False),
        ("first\n…\nlast\n", "first\nlast\n", True),
        ("first\n…\nlast\n", "first\nsecond\nthird\nlast\n", True),
        ("first\n…\nlast\n", "first\nsecond\n", False),
        ("", "something\n", False),
        ("a.b\n", "axb\n", False),
    ],
)
def test_output_is_compared_exactly_but_for_what_varies(expected: str, printed: str, same: bool) -> None:
    assert fits(expected, printed) is same


def test_charts_shown_unnamed_in_readme_are_clean(tmp_path: Path) -> None:
    for block in blocks((ROOT / "README.md").read_text(encoding="utf-8")):
        if block.text.startswith("lintarsia: 1\n"):
            assert check_chart("a.chart.yaml", block.text.encode(), Settings(root=str(tmp_path))).results == ()
