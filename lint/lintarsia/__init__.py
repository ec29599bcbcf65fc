"""lintarsia: checks colourwork knitting charts and works out what they leave unsaid.

`check`, `read`, `plan`, `write` and `pieces` do what the commands do; docs/python.md shows them. Nothing is loaded
before it is asked for: a command that prints its version does not wait for numpy.
"""

__version__ = "0.1.0"

# Where each name of the door stands. Types know them by `__init__.pyi`.
_DOOR = {
    "check": "lintarsia.door.asking",
    "read": "lintarsia.door.asking",
    "plan": "lintarsia.door.asking",
    "pieces": "lintarsia.door.asking",
    "write": "lintarsia.door.asking",
    "Chart": "lintarsia.chart",
    "Plan": "lintarsia.planning.model",
    "KnittedPiece": "lintarsia.door.ofpattern",
    "Report": "lintarsia.result",
    "Result": "lintarsia.result",
    "Level": "lintarsia.result",
    "Trouble": "lintarsia.ground.trouble",
    "Unreadable": "lintarsia.door.trouble",
}
__all__ = list(_DOOR)


def __getattr__(name: str) -> object:
    if name not in _DOOR:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    value = getattr(import_module(_DOOR[name]), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_DOOR})
