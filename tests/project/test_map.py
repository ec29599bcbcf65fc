"""DEVELOPERS.md has a map of the house; whoever looks for a room finds it there, where the wall has it."""

import re
import tomllib
from pathlib import Path

import lintarsia

HOUSE = Path(lintarsia.__file__).parent
PROJECT = Path(__file__).parents[2]
MAP = PROJECT.joinpath("DEVELOPERS.md").read_text("utf-8").partition("## Adding a rule")[0]


def lines_of_the_map() -> list[list[str]]:
    """The rooms of each line, top to bottom."""
    return [re.findall(r"`(\w+)(?:/|\.py)`", names) for names in re.findall(r"^\| (`.+?) \|", MAP, re.MULTILINE)]


def test_every_room_is_on_the_map_and_nothing_else() -> None:
    rooms = {folder.name for folder in HOUSE.iterdir() if (folder / "__init__.py").exists()}
    assert {room for line in lines_of_the_map() for room in line} == rooms | {"__main__"}


def test_the_map_is_that_of_the_wall() -> None:
    """Rooms in one line of the map stand beside each other in the wall, and do not know each other."""
    settings = tomllib.loads(PROJECT.joinpath("pyproject.toml").read_text("utf-8"))
    (wall,) = settings["tool"]["importlinter"]["contracts"]
    assert wall["exhaustive"] is True
    assert [layer.split(" | ") for layer in wall["layers"]] == lines_of_the_map()
