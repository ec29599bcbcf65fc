"""The fenced blocks of a page, and how they are run: what a page shows is what a reader gets.

A page's blocks are taken in reading order and run in one shell, in a fresh folder:

* a paragraph that is nothing but a bold file name, then a fenced block: the block is written to that file;
* a block marked `console`: lines that begin with `$ ` are commands, what follows each is what it prints (both streams);
* all other blocks are for reading only; the tests hold the YAML among them to the schemas.

The address example.org/lintarsia stands for this project as it lies here, committed and with its release's tag.
In output, `…` stands for what varies: within a line for any characters, alone on its line for any number of lines.

    python docs/making/blocks.py docs/designer.md            show what differs
    python docs/making/blocks.py --write docs/designer.md    put what is printed now in its place
"""

import argparse
import difflib
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from lintarsia import __version__

ROOT = Path(__file__).parents[2]
ADDRESS = "https://example.org/lintarsia"
_BLOCK = re.compile(
    r"(?:^\*\*(?P<name>[^*\s]+)\*\*\n\n?)?^```(?P<language>[a-z]*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL
)

MARK = chr(2)  # between one output and the next; no command prints it


@dataclass(frozen=True, slots=True)
class Block:
    """A fenced block: its language, the file it stands for ("" for none), its text, and where that text lies."""

    language: str
    name: str
    text: str
    start: int

    @property
    def end(self) -> int:
        return self.start + len(self.text)


@dataclass(frozen=True, slots=True)
class Command:
    """A command of a page and what the page says it prints."""

    command: str
    told: str


def blocks(markdown: str) -> Iterator[Block]:
    """The blocks of a page in reading order."""
    for found in _BLOCK.finditer(markdown):
        yield Block(found["language"], found["name"] or "", found["text"], found.start("text"))


def commands(text: str) -> list[Command]:
    """The commands of a console block, each with the output that follows it. Raises ValueError for output alone."""
    found: list[tuple[str, list[str]]] = []
    for line in text.splitlines(keepends=True):
        if line.startswith("$ "):
            found.append((line[2:].rstrip("\n"), []))
        elif not found:
            raise ValueError(f"a console block begins with {line!r}; expected a line that begins with '$ '")
        else:
            found[-1][1].append(line)
    return [Command(command, "".join(lines)) for command, lines in found]


def script(markdown: str) -> str:
    """A page as one shell script, which prints MARK after each command."""
    parts = []
    for block in blocks(markdown):
        if block.name:
            folder = os.path.dirname(block.name)
            parts.append(f"mkdir -p ./{folder}\ncat >{block.name} <<'END OF FILE'\n{block.text}END OF FILE\n")
        elif block.language == "console":
            parts.extend(f"{each.command}\nprintf '{MARK}'\n" for each in commands(block.text))
    return "".join(parts)


def run(markdown: str, folder: str | Path, env: dict[str, str]) -> list[str]:
    """What each command of a page prints, in order, when the page is worked through in `folder`."""
    # The script is read from a file, not from standard input: commands would read the rest of it.
    with tempfile.NamedTemporaryFile("w", suffix=".sh", encoding="utf-8") as file:
        file.write(script(markdown))
        file.flush()
        done = subprocess.run(
            ["bash", file.name], cwd=folder, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT, text=True, encoding="utf-8", check=False,
        )  # fmt: skip
    return done.stdout.split(MARK)[:-1]


def told(markdown: str) -> list[Command]:
    """All commands of a page, in order."""
    return [each for block in blocks(markdown) if block.language == "console" for each in commands(block.text)]


def fits(expected: str, printed: str) -> bool:
    """Whether what was printed is what the page says, `…` standing for what varies."""
    pattern = "".join(
        r"(?:.*\n)*?" if line == "…\n" else "[^\n]*".join(re.escape(part) for part in line.split("…"))
        for line in expected.splitlines(keepends=True)
    )
    return re.fullmatch(pattern, "".join(f"{line.rstrip()}\n" for line in printed.splitlines())) is not None


def rewritten(markdown: str, printed: list[str]) -> str:
    """The page with what was printed put where the page says otherwise."""
    left = iter(printed)
    for block in reversed(
        [(b, [next(left) for _ in commands(b.text)]) for b in blocks(markdown) if b.language == "console"]
    ):
        place, outputs = block
        text = "".join(
            f"$ {each.command}\n" + (each.told if fits(each.told, output) else _tidy(output))
            for each, output in zip(commands(place.text), outputs, strict=True)
        )
        markdown = f"{markdown[: place.start]}{text}{markdown[place.end :]}"
    return markdown


def _tidy(output: str) -> str:
    return "".join(f"{line.rstrip()}\n" for line in output.splitlines())


def surroundings(home: Path) -> dict[str, str]:
    """An environment that is the same everywhere: a home of its own, 80 columns, no colours, a made-up designer."""
    home.mkdir(parents=True, exist_ok=True)
    (home / ".gitconfig").write_text(
        "[user]\n\tname = A designer\n\temail = designer@example.org\n[init]\n\tdefaultBranch = main\n",
        encoding="utf-8",
    )
    cache = os.environ.get("XDG_CACHE_HOME", os.path.expanduser("~/.cache"))
    passed = ("PIP_", "SSL_", "http", "no_proxy", "HTTP", "NO_PROXY", "PYTHONPATH")  # the last where it leads to us
    kept = {k: v for k, v in os.environ.items() if k.startswith(passed)}
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ.get("PATH", os.defpath)])
    return {
        "PIP_CACHE_DIR": os.path.join(cache, "pip"), **kept, "PATH": path, "HOME": str(home), "LC_ALL": "C.UTF-8",
        "COLUMNS": "80", "TERM": "dumb", "PIP_DISABLE_PIP_VERSION_CHECK": "1", "PIP_QUIET": "1",
    }  # fmt: skip


def stand_in(home: Path, env: dict[str, str]) -> None:
    """Let git find this project as it stands behind the address that the pages give, tagged as its release."""
    folder = home / "project"
    for name in ("lint", "schema", "site", "examples", "tests/cases"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE", ".pre-commit-hooks.yaml"):
        shutil.copy(ROOT / name, folder / name)
    for argv in (["init", "-q"], ["add", "-A"], ["commit", "-qm", "as it stands"], ["tag", f"v{__version__}"]):
        subprocess.run(["git", "-C", str(folder), *argv], env=env, check=True)
    with open(home / ".gitconfig", "a", encoding="utf-8") as file:
        file.write(f'[url "{folder}"]\n\tinsteadOf = {ADDRESS}\n')


def work_through(markdown: str, folder: Path) -> list[str]:
    """What the commands of a page print when it is worked through in a new place below `folder`."""
    env = surroundings(folder / "home")
    if ADDRESS in markdown:
        stand_in(folder / "home", env)
    (folder / "work").mkdir()
    return run(markdown, folder / "work", env)


def main() -> int:
    parser = argparse.ArgumentParser(description="Run the commands of pages and compare what they print.")
    parser.add_argument("pages", nargs="+", type=Path)
    parser.add_argument("--write", action="store_true", help="put what is printed now into the pages")
    wanted = parser.parse_args()
    differing = 0
    for page in wanted.pages:
        before = page.read_text(encoding="utf-8")
        with tempfile.TemporaryDirectory() as folder:
            after = rewritten(before, work_through(before, Path(folder)))
        if after != before:
            differing += 1
            if wanted.write:
                page.write_text(after, encoding="utf-8")
            lines = (before.splitlines(keepends=True), after.splitlines(keepends=True))
            sys.stdout.writelines(difflib.unified_diff(*lines, str(page), "printed now"))
    return int(differing > 0 and not wanted.write)


if __name__ == "__main__":
    sys.exit(main())
