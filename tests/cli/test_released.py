"""What was released before: by a record file or by tags; and what `release` says of it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import cushion
import pytest

PATTERN = """\
lintarsia-pattern: 1
title: Cushion
version: "{version}"
yarns:
  dk: {{balls: 1}}
pieces:
  side: {{chart: panel.chart.yaml}}
"""


def write(version: str, rows: int = 2) -> None:
    Path("cushion.pattern.yaml").write_text(PATTERN.format(version=version))
    Path("panel.chart.yaml").write_text(cushion.panel(rows))


@pytest.fixture
def release(invoke: Callable[..., Any]) -> Callable[..., Any]:
    def run(*words: str) -> Any:
        done = invoke("release", "cushion.pattern.yaml", *words)
        return done._replace(out=" ".join(done.out.split()))

    return run


Release = Callable[..., Any]
Git = Callable[..., str]


def test_a_tag_holds_a_version_to_its_content(
    repository: Path, git: Git, commit: Callable[[], None], release: Release
) -> None:
    write("1.0")
    commit()
    assert release().status == 0, "never released"
    git("tag", "cushion-v1.0")
    assert release().status == 0, "released as it is"
    Path("panel.chart.yaml").write_text("# a comment\n" + cushion.panel(2))
    commit()
    assert release().status == 0, "layout is no content"
    write("1.0", rows=3)
    commit()
    done = release()
    assert done.status == 1
    assert "release/other-content version 1.0 was released with other content (the tag cushion-v1.0:" in done.out
    write("1.1", rows=3)
    commit()
    assert release().status == 0


def test_tags_of_others_are_not_looked_at(
    repository: Path, git: Git, commit: Callable[[], None], release: Release
) -> None:
    write("1.0")
    commit()
    git("tag", "other-1.0")
    write("0.9")
    commit()
    git("tag", "v1.0")  # by which the pattern was at 0.9
    write("1.0", rows=3)
    commit()
    assert release().status == 0


def test_the_record(repository: Path, commit: Callable[[], None], release: Release) -> None:
    write("1.0")
    done = release("--record")
    assert (done.status, "releases: releases.yaml" in done.err) == (2, True)
    Path("lintarsia.yaml").write_text("releases: releases.yaml\n")
    commit()
    done = release("--record")
    assert (done.status, done.err) == (0, "lintarsia: recorded in releases.yaml\n")
    first = Path("releases.yaml").read_text()
    assert first.startswith('lintarsia-releases: 1\nreleases:\n  - {pattern: "cushion.pattern.yaml", version: "1.0", ')
    assert release("--record").err == "lintarsia: Cushion, version 1.0, is recorded already\n"
    write("1.0", rows=3)
    done = release("--record")
    assert done.status == 1
    assert "version 1.0 was released with other content (releases.yaml:" in done.out
    assert Path("releases.yaml").read_text() == first
    write("1.1", rows=3)
    done = release()
    assert (done.status, "A line says what has changed since version 1.0" in done.out) == (0, True)
    done = release("--record")
    assert (done.status, "since version 1.0; say what in a line: --notes TEXT" in done.err) == (2, True)
    assert release("--record", "--notes", 'One "more" row.').status == 0
    assert Path("releases.yaml").read_text().startswith(first)
    assert 'notes: "One \\"more\\" row."}' in Path("releases.yaml").read_text()
    assert release().status == 0


ENTRY = '{pattern: a.pattern.yaml, version: "1", fingerprint: 0123456789abcdef}'
NEW = '- {pattern: "cushion.pattern.yaml", version: "1.0", '


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("lintarsia-releases: 1\nreleases: []\n", f"releases:\n  {NEW}"),
        (f"lintarsia-releases: 1\nreleases:\n- {ENTRY}\n", f"\n- {ENTRY}\n{NEW}"),
        (f"lintarsia-releases: 1\nreleases:\n    - {ENTRY}", f"\n    - {ENTRY}\n    {NEW}"),
        ("lintarsia-releases: 1\r\nreleases:\r\n", f"\r\nreleases:\r\n  {NEW}"),
    ],
)
def test_the_record_stays_as_it_is_laid_out(repository: Path, release: Release, old: str, new: str) -> None:
    write("1.0")
    Path("lintarsia.yaml").write_text("releases: releases.yaml\n")
    Path("releases.yaml").write_bytes(old.encode())
    assert release("--record").err == "lintarsia: recorded in releases.yaml\n"
    assert new in Path("releases.yaml").read_bytes().decode()
    assert release("--record").err == "lintarsia: Cushion, version 1.0, is recorded already\n"


@pytest.mark.parametrize(
    "old", ["releases:\nlintarsia-releases: 1\n", f"{{lintarsia-releases: 1, releases: [{ENTRY}]}}\n"]
)
def test_a_record_to_which_nothing_can_be_added_is_left_as_it_is(repository: Path, release: Release, old: str) -> None:
    write("1.0")
    Path("lintarsia.yaml").write_text("releases: releases.yaml\n")
    Path("releases.yaml").write_text(old)
    done = release("--record")
    assert (done.status, f"add this to its list: {NEW[2:]}" in done.err) == (2, True)
    assert Path("releases.yaml").read_text() == old


def test_a_faulty_record_is_told_with_its_place(repository: Path, release: Release) -> None:
    write("1.0")
    Path("lintarsia.yaml").write_text("releases: releases.yaml\n")
    Path("releases.yaml").write_text("lintarsia-releases: 1\nreleases:\n  - {pattern: cushion.pattern.yaml}\n")
    done = release()
    assert (done.status, "releases.yaml:2:1: entry 1 in releases has no" in done.err) == (2, True)


def test_uncommitted_changes_are_warned_of_and_the_state_is_printed(
    repository: Path, git: Git, commit: Callable[[], None], release: Release
) -> None:
    write("1.0")
    commit()
    done = release()
    head = git("log", "-1", "--format=%h, %cs")
    assert "release/uncommitted" not in done.out.partition("What was checked")[0]
    assert f"· commit {head} panel.chart.yaml: fingerprint" in done.out
    write("1.0", rows=3)
    done = release()
    assert done.status == 0, "a warning"
    assert "panel.chart.yaml:1:1 warning release/uncommitted the file is not what commit" in done.out
    assert f"changed since commit {head}" in done.out


def test_outside_a_repository_nothing_is_asked_of_git(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, release: Release
) -> None:
    monkeypatch.chdir(tmp_path)
    write("1.0")
    done = release()
    assert (done.status, "commit" in done.out) == (0, False)
