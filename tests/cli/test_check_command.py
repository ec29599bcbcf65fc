"""`lintarsia check` as its callers meet it: words, formats, exit statuses."""

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, INTERRUPTED, OK, PIPE_CLOSED
from lintarsia.cli.main import main

Write = Callable[..., Path]
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run the command line in the test's folder: (status, standard output, standard error)."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("LINTARSIA_DEBUG", raising=False)

    def run(*argv: str) -> tuple[int, str, str]:
        status = main(argv)
        out, err = capfd.readouterr()
        return status, out, err

    return run


SHORT = "short"
WHOLE = "clean"


def test_all_is_well_in_one_line(run: Run, write_chart: Write) -> None:
    write_chart(grid=WHOLE)
    assert run("check") == (OK, "1 chart: nothing to mend\n", "")


def test_quiet_says_nothing_when_all_is_well(run: Run, write_chart: Write) -> None:
    write_chart(grid=WHOLE)
    assert run("check", "--quiet") == (OK, "", "")


def test_a_short_row_as_text(run: Run, write_chart: Write) -> None:
    write_chart("heron.chart.yaml", SHORT)
    status, out, err = run("check", ".")
    assert (status, err) == (FOUND, "")
    lines = out.splitlines()
    assert lines[0] == "heron.chart.yaml:27:3"
    assert lines[1].startswith("■ error  row 2 (WS), stitches 1–27 ")
    assert lines[1].endswith(" grid/stitch-count")
    assert "  row 2 has 27 stitches; row 1 has 28 and no shaping is declared" in lines
    assert " ▸    2  BBBBBBBBBBBBBWWWWWWWWWWWWWW" in lines
    assert f"         {'^' * 27}" in lines
    assert lines[-1] == "1 chart: 1 error"
    assert max(map(len, lines)) <= 80


def test_a_short_row_as_json(run: Run, write_chart: Write) -> None:
    write_chart("heron.chart.yaml", SHORT)
    status, out, err = run("check", "--format", "json", "heron.chart.yaml")
    assert (status, err) == (FOUND, "")
    report = json.loads(out)
    assert report["schema"] == "lintarsia/report/1"
    assert report["tool"]["name"] == "lintarsia"
    assert report["summary"] == {"charts": 1, "error": 1, "warning": 0, "note": 0, "suppressed": 0}
    assert report["looked_at"] == {"chart": 1, "pattern": 0, "knit": 0}
    (result,) = report["results"]
    assert result["rule"] == "grid/stitch-count"
    assert result["key"] == "row-too-short"
    assert result["level"] == "error"
    assert result["message"] == "row 2 has 27 stitches; row 1 has 28 and no shaping is declared"
    assert result["file"] == "heron.chart.yaml"
    assert result["region"] == {"line": 27, "column": 3, "end_line": 27, "end_column": 30}
    assert (result["row"], result["stitches"], result["suppressed"]) == (2, [1, 27], False)
    assert len(result["fingerprint"]) == 32


def test_a_chart_that_cannot_be_read_is_a_result(run: Run, tmp_path: Path) -> None:
    (tmp_path / "odd.chart.yaml").write_bytes(b"\xff\xfe\x00\x01")
    status, out, err = run("check", "odd.chart.yaml", "--format", "json")
    assert (status, err) == (FOUND, "")
    assert [r["rule"] for r in json.loads(out)["results"]] == ["file/unreadable"]


def test_several_formats_in_one_run(run: Run, write_chart: Write, tmp_path: Path) -> None:
    write_chart(grid=WHOLE)
    assert run("check", "--format", "json:out.json", "--format", "text") == (OK, "1 chart: nothing to mend\n", "")
    assert json.loads((tmp_path / "out.json").read_text())["summary"]["charts"] == 1
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out.json", "toy.chart.yaml"]  # nothing left beside


def test_a_folder_without_charts(run: Run) -> None:
    assert run("check") == (OK, "", "lintarsia: no charts found in .\n")


def test_a_named_chart_that_the_settings_exclude(run: Run, write_chart: Write, tmp_path: Path) -> None:
    write_chart(grid=WHOLE)
    (tmp_path / "lintarsia.yaml").write_text("exclude: [toy.*]\n", "utf-8")
    assert run("check", "toy.chart.yaml") == (OK, "", "lintarsia: the settings exclude toy.chart.yaml\n")


@pytest.mark.parametrize(
    ("argv", "told"),
    [
        (["check", "gone.chart.yaml"], "lintarsia: there is no file or folder 'gone.chart.yaml'"),
        (["check", "--format", "jsn"], "there is no format 'jsn'; did you mean 'json'?"),
        (["check", "--format", "json:"], "'json:' names no file after the colon"),
        (["check", "--format", "json", "--format", "text"], "two formats cannot share standard output"),
        (["check", "--block", "fatal"], "'fatal' is not one of"),
        (["check", "--settings", "gone.yaml"], "gone.yaml:1:1: there is no such file"),
        (["check", "--format", "json:no/such/folder.json"], "'no/such/folder.json' cannot be written"),
        (["chek"], "there is no command 'chek'; did you mean 'check'?"),
        (["explain", "grid/stich-count"], "there is no rule 'grid/stich-count'; did you mean 'grid/stitch-count'?"),
        (["--verson"], "No such option"),
    ],
)
def test_what_cannot_run_exits_with_2(run: Run, write_chart: Write, argv: list[str], told: str) -> None:
    write_chart(grid=WHOLE)
    status, out, err = run(*argv)
    assert (status, out) == (CANNOT, "")
    assert told in err
    assert "Traceback" not in err


def test_settings_out_of_order_exit_with_2(run: Run, write_chart: Write, tmp_path: Path) -> None:
    write_chart(grid=WHOLE)
    (tmp_path / "lintarsia.yaml").write_text("rules:\n  colour/unsed: off\n")
    told = "lintarsia: lintarsia.yaml:2:3: there is no rule 'colour/unsed'; did you mean 'colour/unused'?\n"
    assert run("check") == (CANNOT, "", told)


def test_the_level_that_blocks(run: Run, write_chart: Write) -> None:
    write_chart(grid="BBBB\nBBBB\n")  # W is in the key and in no stitch
    status, out, _ = run("check")
    assert (status, out.splitlines()[-1]) == (OK, "1 chart: 1 warning (nothing that blocks)")
    assert run("check", "--block", "warning")[0] == FOUND
    assert run("check", "--block", "off")[0] == OK


def test_a_failure_of_our_own_is_told_without_a_traceback(
    run: Run, write_chart: Write, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("toy fault")

    write_chart(grid=WHOLE)
    monkeypatch.setattr("lintarsia.engine.check_paths", broken)
    told = "lintarsia: lintarsia itself failed (RuntimeError: toy fault); please report it, with what --debug shows\n"
    assert run("check") == (CANNOT, "", told)
    monkeypatch.setenv("LINTARSIA_DEBUG", "1")
    with pytest.raises(RuntimeError):
        run("check")


def test_a_chart_from_standard_input(write_chart: Write, tmp_path: Path) -> None:
    data = write_chart(grid=SHORT).read_bytes()
    done = _process("check", "-", "--stdin-name", "new.chart.yaml", "--format", "json", input=data, cwd=tmp_path)
    assert done.returncode == FOUND
    assert [r["file"] for r in json.loads(done.stdout)["results"]] == ["new.chart.yaml"]


def test_a_name_that_is_not_utf_8(write_chart: Write, tmp_path: Path) -> None:
    os.rename(os.fsencode(write_chart(grid=SHORT)), os.fsencode(tmp_path) + b"/h\xe9ron.chart.yaml")
    done = _process("check", ".", "--format", "json", cwd=tmp_path)
    assert [r["file"] for r in json.loads(done.stdout)["results"]] == ["h\\xe9ron.chart.yaml"]
    assert _process("check", ".", cwd=tmp_path).stdout.startswith(b"h\\xe9ron.chart.yaml:27:3\n")


@pytest.mark.slow
def test_the_same_bytes_from_one_process_and_from_two(write_chart: Write, tmp_path: Path) -> None:
    for i in range(9):
        write_chart(f"c{i}.chart.yaml", grid=SHORT if i % 2 else WHOLE)
    for form in ("json", "text"):
        one, two = (_process("check", ".", "--format", form, "--jobs", jobs, cwd=tmp_path) for jobs in "12")
        assert one.stdout == two.stdout
        assert one.returncode == two.returncode == FOUND


def test_plain_ascii_where_the_terminal_has_no_more(write_chart: Write, tmp_path: Path) -> None:
    write_chart(grid=SHORT)
    done = _process("check", cwd=tmp_path, env={"PYTHONIOENCODING": "ascii"})
    assert done.stdout.splitlines()[1].startswith(b"# error  row 2 (WS), stitches 1-27 ")
    assert b" >    2  BBBBBBBBBBBBBWWWWWWWWWWWWWW" in done.stdout.splitlines()
    assert b"?" not in done.stdout


@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_a_reader_that_has_seen_enough_ends_it_in_peace(write_chart: Write, tmp_path: Path, unbuffered: str) -> None:
    for i in range(40):
        write_chart(f"c{i}.chart.yaml", grid=SHORT)
    command = [sys.executable, "-m", "lintarsia", "check", "."]
    env = {**os.environ, "PYTHONUNBUFFERED": unbuffered}
    process = subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env)
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    assert process.stderr.read() == b""
    process.stderr.close()
    assert process.wait() == PIPE_CLOSED


def test_an_interrupted_run_ends_without_a_traceback(write_chart: Write, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "lintarsia", "check", "-"]
    process = subprocess.Popen(
        command,
        cwd=tmp_path,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # a test run in the background ignores it
    )
    _until_it_reads(process.pid)
    process.send_signal(signal.SIGINT)
    out, err = process.communicate()
    assert (process.returncode, out, err.strip()) == (INTERRUPTED, b"", b"stopped")


def _until_it_reads(pid: int) -> None:
    """Wait until a process sleeps in a read of its standard input (descriptor 0)."""
    import time

    for _ in range(600):
        fields = Path(f"/proc/{pid}/syscall").read_text().split()
        if fields[:2] == ["0", "0x0"]:
            return
        time.sleep(0.05)
    raise AssertionError("the process never came to read its standard input")


def _process(
    *argv: str, cwd: Path, input: bytes | None = None, env: dict[str, str] | None = None
) -> "subprocess.CompletedProcess[bytes]":
    command = [sys.executable, "-m", "lintarsia", *argv]
    return subprocess.run(command, cwd=cwd, input=input, capture_output=True, env={**os.environ, **(env or {})})
