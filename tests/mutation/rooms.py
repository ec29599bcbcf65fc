"""Which tests are asked over which room of lint/lintarsia, unless a run names them itself: its own, and those of the
rooms that would be the first to suffer. Browser tests and others that are marked slow are asked over none."""

SHARED = ["planning", "rules", "reference", "plansheets", "pattern", "mending", "examples", "engine", "written"]
TESTS_OF = {
    "ground": ["settings", "engine", "reading", "pattern", "bringing/test_bring_command.py", "cli"],
    "chart": ["chart", "reading", "planning", "written", "rules", "drawing", "plansheets"],
    "telling": ["telling", "plansheets", "rules", "mutation/test_slips.py", "cli"],
    "result": ["reporting", "engine", "cli", "rules"],
    "reading": ["reading", "mending", "rules"],
    "planning": SHARED,
    "plansheets": ["plansheets", "cli/test_plan_command.py", "planning"],
    "written": ["written", "rules", "cli/test_write_command.py"],
    "pattern": ["pattern", "rules", "examples"],
    "bringing": ["bringing", "cli/test_start_command.py"],
    "rules": SHARED,
    "settings": ["settings", "engine", "cli"],
    "engine": ["engine", "cli", "settings", "pattern"],
    "reporting": ["reporting", "cli", "reference/test_result_formats.py"],
    "drawing": ["drawing", "plansheets"],
    "mending": ["mending", "cli/test_fix_command.py"],
    "publishing": ["site", "reporting"],
    "cli": ["cli", "bringing/test_bring_command.py", "drawing/test_draw_command.py", "engine"],
}


def tests_for(parts: list[str]) -> list[str]:
    """Folders and files below tests/ for the rooms that the parts are of; "result/baseline.py" is of `result`."""
    return list(dict.fromkeys(test for part in parts for test in TESTS_OF[part.partition("/")[0]]))
