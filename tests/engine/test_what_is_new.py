"""What is new of two lists of results, and what git is asked for it: by hand-made results, and in real repositories."""

import os
import subprocess
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from lintarsia.engine import targets as targets_module
from lintarsia.engine.committing import left_lying, taken_away, unsettled
from lintarsia.engine.differing import Difference, between, changed_lines, differing
from lintarsia.engine.failing import failed
from lintarsia.engine.git import commit_of, git, names, top_of
from lintarsia.engine.past import Past
from lintarsia.engine.revision import Revision, Revisions, revision_of
from lintarsia.engine.since import new_results
from lintarsia.engine.subjects import subject_of
from lintarsia.engine.targets import Target, find_targets
from lintarsia.engine.workers import PAYS_FROM_BYTES, _chunks, workers_for
from lintarsia.ground.kinds import Kind
from lintarsia.ground.trouble import Trouble
from lintarsia.result import Level, Region, Result
from lintarsia.settings import Settings, SettingsFinder

WARNING, ERROR = Level.WARNING, Level.ERROR


def told(line: int, mark: str, *, alike: str = "", level: Level = WARNING, suppressed: bool = False) -> Result:
    return Result(
        "area/x", "x", level, "m", "a", Region(line, 1, line, 9), fingerprint=mark, alike=alike, suppressed=suppressed
    )


def new(now: Sequence[Result], before: Sequence[Result], *changed: tuple[int, int]) -> list[int]:
    asked: list[int] = []

    def lines() -> Sequence[tuple[int, int]]:
        asked.append(1)
        return changed

    found = [result.region.line for result in new_results(now, before, lines)]
    assert len(asked) <= 1
    return found


def test_a_mark_that_was_there_is_not_new_wherever_it_stands() -> None:
    assert new([told(3, "p"), told(7, "q")], [told(30, "p")]) == [7]
    assert new([told(3, "p")], [told(3, "p")]) == []
    assert new([told(3, "p")], []) == [3]


def test_what_is_graver_or_no_longer_accepted_is_new() -> None:
    before = [told(3, "p"), told(4, "q", suppressed=True)]
    assert new([told(3, "p", level=ERROR), told(4, "q", suppressed=True)], before) == [3]
    assert new([told(3, "p"), told(4, "q")], before) == [4]
    assert new([replace(told(3, "p"), rule="area/y")], before) == [3]


def test_of_like_ones_those_in_changed_lines_are_told_too() -> None:
    """Two were there and now there are three: the mark of the third is new, and it is the topmost that has it."""
    before = [told(10, "p"), told(20, "p2", alike="p")]
    now = [told(5, "p"), told(10, "p2", alike="p"), told(20, "p3", alike="p")]
    assert new(now, before) == [20]
    assert new(now, before, (5, 5)) == [5, 20]
    assert new(now, before, (6, 9), (11, 12)) == [20]
    assert new(now, before, (1, 5), (10, 30)) == [5, 10, 20]
    assert new(now, before, (3, 4)) == [20]


def test_others_in_changed_lines_are_not() -> None:
    """What is new is like nothing that was there; what was there and is not like it is no news."""
    before = [told(10, "p"), told(20, "q")]
    assert new([told(10, "p"), told(20, "q"), told(30, "r")], before, (1, 99)) == [30]
    more = [told(10, "p"), told(15, "p2", alike="p"), told(20, "q")]
    assert new(more, before, (1, 99)) == [10, 15]
    assert new([replace(told(10, "p"), level=ERROR), *more[1:]], before, (1, 99)) == [10, 15]


def run(*words: str) -> str:
    who = ["-c", "user.name=M", "-c", "user.email=m@example.org"]
    return subprocess.run(["git", *who, *words], check=True, capture_output=True, text=True).stdout.strip()


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with a commit: two charts, a pattern, settings below."""
    monkeypatch.chdir(tmp_path)
    run("init", "-q", "-b", "main")
    (tmp_path / "deep").mkdir()
    for name in ("a.chart.yaml", "deep/b.chart.yaml", "c.pattern.yaml", "deep/lintarsia.yaml", "notes.txt"):
        (tmp_path / name).write_text(f"# {name}\n1\n2\n3\n4\n", "utf-8")
    commit("one")
    return tmp_path


def commit(message: str) -> str:
    run("add", "-A")
    run("commit", "-qm", message)
    return run("rev-parse", "HEAD")


def test_what_git_is_asked_and_how_it_answers(here: Path) -> None:
    head = run("rev-parse", "HEAD")
    assert git(str(here), "rev-parse", "HEAD") == head.encode() + b"\n"
    assert git("", "rev-parse", "HEAD") == head.encode() + b"\n"
    assert (
        git(".", "hash-object", "--stdin", data=b"x\n").decode().strip() == "587be6b4c3f93f93c489c0111bba5596147a26cb"
    )
    assert git(".", "diff", "--no-index", "--name-only", "notes.txt", "a.chart.yaml", fine=(0, 1)) != b""
    assert names(b"a\0b c\0\0\xff\0") == ["a", "b c", "\udcff"]
    assert top_of("deep") == os.path.realpath(here)
    with pytest.raises(Trouble) as caught:
        git("deep", "cat-file", "blob", "nonsense")
    assert str(caught.value).startswith("git cannot say what has changed in 'deep': ")
    assert "fatal" not in str(caught.value)
    with pytest.raises(Trouble, match=r"^git cannot say what has changed in '\.': no reason given$"):
        git(".", "diff", "--quiet", "--no-index", "notes.txt", "a.chart.yaml")


def test_git_that_is_not_there(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(here))
    with pytest.raises(Trouble) as caught:
        git(".", "status")
    assert str(caught.value) == "this needs git, which is not installed here"
    assert revision_of("a.chart.yaml") is None


def test_the_commit_that_is_meant(here: Path) -> None:
    one = run("rev-parse", "HEAD")
    run("checkout", "-q", "-b", "side")
    (here / "a.chart.yaml").write_text("# side\n")
    side = commit("side")
    run("checkout", "-q", "main")
    (here / "c.pattern.yaml").write_text("# main\n")
    two = commit("two")
    top = str(here)
    asked = {"HEAD": two, "main~1": one, side[:9]: side, "side...main": one, "side...": one, "...side": one, "...": two}
    assert {revision: commit_of(top, revision) for revision in asked} == asked
    wrong = {
        "nix": f"git knows no revision 'nix' in {top!r}",
        "a..b": f"git knows no revision 'a..b' in {top!r}; expected one revision, or A...B",
        "nix...main": f"git knows no revision 'nix' in {top!r}",
        "main...nix": f"git knows no revision 'nix' in {top!r}",
        "a\0b": f"git knows no revision 'a\\x00b' in {top!r}",
        "": f"git knows no revision '' in {top!r}",
    }
    for revision, said in wrong.items():
        with pytest.raises(Trouble) as caught:
            commit_of(top, revision)
        assert str(caught.value) == said
    run("checkout", "-q", "--orphan", "alone")
    commit("alone")
    for revision, ends in (
        ("...main", "HEAD and main"),
        ("main...", "main and HEAD"),
        ("side...alone", "side and alone"),
    ):
        with pytest.raises(Trouble) as caught:
            commit_of(top, revision)
        assert str(caught.value) == f"git finds nothing that {ends} share; fetch more of the history"


def test_files_that_differ(here: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Changed, new to git, unknown to git, gone, renamed in git and renamed outside it."""
    for name in ("d", "e"):
        (here / f"{name}.chart.yaml").write_text(f"# {name}\n" + "".join(f"{name}{n}\n" for n in range(30)))
    one = commit("more")
    (here / "a.chart.yaml").write_text("# other\n")
    (here / "new.chart.yaml").write_text("# new\n")
    run("add", "new.chart.yaml")
    (here / "unknown.txt").write_text("x")
    (here / "deep/lintarsia.yaml").unlink()
    run("mv", "d.chart.yaml", "deep/d.chart.yaml")
    (here / "e.chart.yaml").rename(here / "moved.chart.yaml")
    (here / "d").write_text("")
    before = (here / ".git/index").read_bytes()
    found = differing(str(here), one, str(tmp_path_factory.mktemp("scratch")))
    assert found.moved == {"deep/d.chart.yaml": "d.chart.yaml", "moved.chart.yaml": "e.chart.yaml"}
    assert found.gone == {"deep/lintarsia.yaml", "d.chart.yaml", "e.chart.yaml"}
    assert found.there == {
        "a.chart.yaml", "new.chart.yaml", "unknown.txt", "d", "deep/d.chart.yaml", "moved.chart.yaml",
    }  # fmt: skip
    assert (here / ".git/index").read_bytes() == before
    two = commit("all")
    later = between(str(here), one, two)
    assert (later.gone, later.moved) == (found.gone, found.moved)
    assert between(str(here), two, two) == Difference(frozenset(), frozenset(), {})


def test_what_a_difference_concerns() -> None:
    found = Difference(frozenset({"a.chart.yaml", "deep/lintarsia.yaml"}), frozenset({"x.chart.yaml"}), {})
    asked = ("a.chart.yaml", "b.chart.yaml", "deep/b.chart.yaml", "deeper/b.chart.yaml")
    assert [found.reaches(name) for name in asked] == [True, False, True, False]
    assert found.concerns("other/c.pattern.yaml")
    assert not found.concerns("other/c.chart.yaml")
    nothing = Difference(frozenset(), frozenset(), {})
    assert not nothing.concerns("c.pattern.yaml")
    assert nothing.anything is False
    assert Difference(frozenset(), frozenset({"x"}), {}).anything
    everywhere = Difference(frozenset(), frozenset({"lintarsia.yaml"}), {})
    assert everywhere.reaches("deep/b.chart.yaml")


@pytest.mark.parametrize(
    ("old", "now", "spans"),
    [
        ("1\n2\n3\n", "1\n2\n3\n", ()),
        ("1\n2\n3\n", "1\nx\n3\n", ((2, 2),)),
        ("1\n2\n3\n", "1\nx\ny\nz\n3\n", ((2, 4),)),
        ("1\n2\n3\n", "1\n3\n", ((1, 2),)),
        ("1\n2\n3\n", "0\n1\n2\n3\n4\n5\n", ((1, 1), (5, 6))),
        ("1\n2\n3\n", "2\n3\n", ((0, 1),)),
    ],
)
def test_lines_that_differ(old: str, now: str, spans: tuple[tuple[int, int], ...], tmp_path: Path) -> None:
    (tmp_path / "old").write_text(old)
    (tmp_path / "now").write_text(now)
    assert changed_lines(str(tmp_path / "old"), str(tmp_path / "now")) == spans


def test_the_state_of_a_file(here: Path) -> None:
    short, day = run("log", "-1", "--format=%h %cs").split()
    assert revision_of("a.chart.yaml") == Revision(short, day, clean=True)
    assert Revision(short, day, clean=True).words == f"commit {short}, {day}"
    assert Revision(short, day, clean=False).words == f"changed since commit {short}, {day}"
    (here / "a.chart.yaml").write_text("# changed\n")
    (here / "deep/new.chart.yaml").write_text("# new\n")
    run("add", "a.chart.yaml")
    asked = Revisions()
    clean = {name: asked.of(name) for name in ("a.chart.yaml", "deep/b.chart.yaml", "deep/new.chart.yaml")}
    assert [found is not None and found.clean for found in clean.values()] == [False, True, False]
    assert revision_of(str(here.parent / "outside.chart.yaml")) is None


def test_before_the_first_commit_there_is_no_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    run("init", "-q")
    (tmp_path / "a.chart.yaml").write_text("")
    assert revision_of("a.chart.yaml") is None


def test_the_past_as_it_was(here: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    one = run("rev-parse", "HEAD")
    (here / "a.chart.yaml").rename(here / "z.chart.yaml")
    (here / "deep/lintarsia.yaml").write_text("block: note\n")
    run("add", "-A")
    past = Past(str(here), "HEAD", str(tmp_path_factory.mktemp("scratch")), SettingsFinder())
    assert past.commit == one
    assert past.name(str(here / "deep/b.chart.yaml")) == "deep/b.chart.yaml"
    assert past.files() == ["a.chart.yaml", "c.pattern.yaml", "deep/b.chart.yaml"]
    old = past.target(str(here / "z.chart.yaml"))
    assert old is not None
    assert Path(old.path).read_text() == "# a.chart.yaml\n1\n2\n3\n4\n"
    assert old.size == Path(old.path).stat().st_size
    assert past.named("a.chart.yaml") is not None
    assert past.target(str(here / "none.chart.yaml")) is None
    assert [past.concerns(str(here / name)) for name in ("z.chart.yaml", "deep/b.chart.yaml", "c.pattern.yaml")] == [
        True
    ] * 3
    assert not past.concerns(str(here / "y.chart.yaml"))


def test_what_a_commit_takes_away(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for variable in ("PRE_COMMIT_FROM_REF", "PRE_COMMIT_TO_REF"):
        monkeypatch.delenv(variable, raising=False)
    run("rm", "-q", "--cached", "a.chart.yaml")
    run("rm", "-q", "deep/lintarsia.yaml")
    monkeypatch.chdir(here / "deep")
    top = os.path.realpath(here)
    gone = taken_away(os.environ)
    assert gone == [f"{top}/a.chart.yaml", f"{top}/deep/lintarsia.yaml"]
    assert left_lying(gone) == [f"{top}/a.chart.yaml"]
    assert left_lying([f"{top}/none/a.chart.yaml", f"{top}/A.chart.yaml"]) == []
    assert unsettled(gone) == ["."]
    assert unsettled([f"{top}/none/lintarsia.yaml", f"{top}/a.chart.yaml"]) == []
    run("commit", "-qm", "gone")
    assert taken_away(os.environ) == []
    assert taken_away({"PRE_COMMIT_FROM_REF": "HEAD~1", "PRE_COMMIT_TO_REF": "HEAD"}) == gone
    assert taken_away({"PRE_COMMIT_FROM_REF": "HEAD~1"}) == []
    with pytest.raises(Trouble, match="git knows no revision 'nix'"):
        taken_away({"PRE_COMMIT_FROM_REF": "nix", "PRE_COMMIT_TO_REF": "HEAD"})


def test_the_result_of_a_failure(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.delenv("LINTARSIA_DEBUG", raising=False)
    found = failed("the reader", "reader-failed", ValueError("two\n  lines " + "x" * 300), Kind.PATTERN)
    assert (found.rule, found.finding.key) == ("engine/rule-failed", "reader-failed")
    assert found.finding.message == (
        f"the reader itself failed on this pattern (ValueError: two lines {'x' * 190}); the pattern is not to blame, "
        "please report it"
    )
    assert found.finding.pattern == "the reader ValueError"
    bare = failed("the rule area/x", "rule-failed", KeyError(), Kind.CHART)
    assert "failed on this chart (KeyError); the chart is not" in bare.finding.message
    assert capsys.readouterr().err == ""
    monkeypatch.setenv("LINTARSIA_DEBUG", "1")
    failed("the reader", "reader-failed", ValueError("shown"), Kind.CHART)
    assert "ValueError: shown" in capsys.readouterr().err


def targets(*sizes: int) -> list[Target]:
    held = Settings(root="/")
    return [Target(f"{at}.chart.yaml", held, size) for at, size in enumerate(sizes)]


def test_how_many_processes_pay(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lintarsia.engine.workers.cores", lambda: 5)
    half = PAYS_FROM_BYTES // 2
    assert workers_for(targets(half, half - 1, 0), None) == 1
    assert workers_for(targets(half, half, 0), None) == 3
    assert workers_for(targets(*[half] * 9), None) == 5
    assert [workers_for(targets(1, 1, 1), jobs) for jobs in (1, 2, 7)] == [1, 2, 3]
    assert workers_for([], 4) == 1


def test_charts_are_handed_over_a_few_at_a_time() -> None:
    """Two processes and eight parcels each: 40 charts make parcels of three, 400 of sixteen at most."""
    for number, most in ((40, 3), (400, 16), (3, 1)):
        chunks = list(_chunks(targets(*[10] * number), 2))
        assert [file for chunk in chunks for file in chunk.files] == [
            (f"{at}.chart.yaml", 0, 10) for at in range(number)
        ]
        assert max(len(chunk.files) for chunk in chunks) == most
        assert {len(chunk.settings) for chunk in chunks} == {1}
        assert len({chunk.settings for chunk in chunks}) == 1, "settings are sent once"
    two = [*targets(10, 10), *targets(10)]
    (one, *_) = _chunks(two * 20, 1)
    assert sorted({which for _, which, _ in one.files}) == [0, 1]
    assert len(one.settings) == 2


def test_a_folder_that_cannot_be_read_is_told(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (here / "deep/lintarsia.yaml").unlink()
    usual = os.scandir

    def closed(path: str) -> object:
        if os.path.basename(path) == "deep":
            raise PermissionError(13, "Permission denied")
        return usual(path)

    monkeypatch.setattr(os, "scandir", closed)
    for asked, told in ((".", "deep"), ("deep", "deep"), (str(here), str(here / "deep"))):
        with pytest.raises(Trouble) as caught:
            find_targets([asked], SettingsFinder())
        assert str(caught.value) == f"the folder {told!r} cannot be read (Permission denied)"


def test_a_file_that_goes_while_its_folder_is_read(here: Path) -> None:
    class Gone:
        def stat(self) -> os.stat_result:
            raise FileNotFoundError

        def is_dir(self) -> bool:
            raise OSError

    assert targets_module._size(Gone()) == 0  # type: ignore[arg-type]
    assert targets_module._leads_to_folder(Gone()) is False  # type: ignore[arg-type]


def test_a_log_names_the_charts_of_its_pattern(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("a.chart.yaml").write_text("")
    Path("m.pattern.yaml").write_text("lintarsia-pattern: 1\ntitle: M\npieces:\n  f: {chart: a.chart.yaml}\n")
    Path("x.knit.yaml").write_text("lintarsia-knit: 1\npattern: m.pattern.yaml\nknitter: M.\n")
    subject = subject_of("x.knit.yaml", None, Settings(root=str(tmp_path)))
    subject.read()
    assert [os.path.basename(path) for path in subject.named()] == ["m.pattern.yaml", "a.chart.yaml"]
