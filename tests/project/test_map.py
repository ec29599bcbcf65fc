"""DEVELOPERS.md has a map of the house; whoever looks for a room finds it there."""

import re
from pathlib import Path

import lintarsia

HOUSE = Path(lintarsia.__file__).parent
MAP = Path(__file__).parents[2].joinpath("DEVELOPERS.md").read_text("utf-8").partition("## Adding a rule")[0]


def test_every_room_is_on_the_map() -> None:
    rooms = {folder.name for folder in HOUSE.iterdir() if (folder / "__init__.py").exists()}
    named = set(re.findall(r"^\| (.+?) \|", MAP, re.MULTILINE))
    on_map = {room for names in named for room in re.findall(r"`(\w+)/`", names)}
    assert rooms <= on_map, f"not on the map: {sorted(rooms - on_map)}"
    assert on_map - rooms <= {"comparing", "knits", "editor"}, (
        f"on the map and not in the house: {sorted(on_map - rooms)}"
    )
