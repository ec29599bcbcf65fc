"""The format chosen where none is asked for."""

from lintarsia.reporting import CI_FORMATS, REPORTERS, usual_formats


def test_at_a_terminal_text() -> None:
    assert usual_formats({}) == (("text", None),)


def test_in_known_ci_systems_what_they_read() -> None:
    assert usual_formats({"GITHUB_ACTIONS": "true"}) == (("github", None),)
    assert usual_formats({"GITLAB_CI": "true"}) == (("text", None), ("gitlab", "gl-code-quality-report.json"))


def test_every_one_of_them_exists() -> None:
    assert {name for formats in CI_FORMATS.values() for name, _ in formats} <= set(REPORTERS)
