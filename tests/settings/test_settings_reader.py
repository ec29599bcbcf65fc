"""Settings files: what each key comes to, and how each slip is told."""

from pathlib import Path

import pytest

from lintarsia.chart import Limits
from lintarsia.chart.measure import Length, StitchCount
from lintarsia.ground.trouble import Trouble
from lintarsia.result import Level
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Settings, find_settings
from lintarsia.settings.reader import parse_size, read_settings


@pytest.fixture
def read(tmp_path: Path, toy_book: Rulebook, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)

    def read(text: str) -> Settings:
        (tmp_path / "lintarsia.yaml").write_text(text, encoding="utf-8")
        return read_settings("lintarsia.yaml", rulebook=toy_book)

    return read


def test_every_key(read) -> None:
    settings = read(
        """
charts: ["charts/*.yaml"]
exclude: [drafts]
block: warning
limits: {supplies: 6, float: 5 stitches, carry: 2, idle: 1, strand: 4}
yarn: {tail: 6 in, cast-on: 2.5, bind-off: 4, allowance: 12.5 %, holders: {loose-strand: 2 m, bobbin: 30 yd}}
max-size: 1 MiB
rules:
  toy/letters: {level: note, options: {symbol: B, rows: false, most: 7, reach: 3 cm, names: [a, b]}}
  toy/fails: error
overrides:
  - {paths: [old], rules: {toy/letters: off}}
"""
    )
    assert settings.charts == ("charts/*.yaml",)
    assert settings.exclude == ("drafts",)
    assert settings.block is Level.WARNING
    limits = settings.reckoning.limits
    assert (limits.supplies, limits.float, limits.carry) == (6, StitchCount(5), StitchCount(2))
    assert (limits.idle, limits.strand) == (1, 4)
    assert settings.reckoning.tail_mm == pytest.approx(152.4)  # 6 in at 25.4 mm, the international inch
    assert settings.reckoning.allowance == pytest.approx(0.125)
    assert (settings.reckoning.cast_on, settings.reckoning.bind_off) == (2.5, 4)
    holders = settings.reckoning.holders
    names = [name for _, name in holders]
    assert names == ["loose strand", "butterfly", "bobbin", "ball"]
    assert [most for most, _ in holders] == pytest.approx([2, 10, 27.432, float("inf")])  # 30 × 0.9144 m
    assert settings.max_bytes == 2**20
    letters = settings.rules["toy/letters"]
    assert letters.level is Level.NOTE
    values = {"symbol": "B", "rows": False, "most": 7, "reach": Length(3, "cm"), "names": ("a", "b")}
    assert letters.values == values
    assert settings.rules["toy/fails"].level is Level.ERROR
    assert settings.overrides[0].paths == ("old",)


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "{}\n"])
def test_an_empty_file_is_the_defaults(read, text: str) -> None:
    settings = read(text)
    assert settings.charts == ("*.chart.yaml",)
    assert (settings.reckoning.tail_mm, settings.reckoning.allowance, settings.max_bytes) == (150.0, 0.10, 4 * 2**20)
    assert settings.reckoning.limits == Limits(), (
        "what the file leaves unsaid stays unsaid; the house values fill it in"
    )


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "block: error\nterms: british",
            "2:1: unknown key 'terms'; expected a key of the format\n  mend  write `words: {terms: british}`",
        ),
        (
            "words: american",
            "1:8: words: found 'american'; expected how rows are written in words\n  mend  write "
            "`words: {terms: american}`",
        ),
        ("block: error\nterms: american", "expected a key of the format\n  mend  write `words: {terms: american}`"),
        (
            "words: [american]",
            "found a list of 1; expected how rows are written in words\n  mend  write `words: {terms: b",
        ),
        ("charts: {words: found }", "1:9: charts: found a group of keys; expected a list of paths"),
        ("exclud: []", "lintarsia.yaml:1:1: unknown key 'exclud'; did you mean 'exclude'?"),
        ("rules:\n  toy/leters: off", "lintarsia.yaml:2:3: there is no rule 'toy/leters'; did you mean 'toy/letters'?"),
        (
            "rules:\n  toy/letters: {options: {symbl: B}}",
            "lintarsia.yaml:2:27: toy/letters has no option 'symbl'; did you mean 'symbol'?",
        ),
        ("rules: {toy/fails: {options: {zebra: 1}}}", "toy/fails has no option 'zebra'; it has none"),
        ("rules: {toy/letters: {options: {most: many}}}", "option most of toy/letters: 'many' is not a whole number"),
        ("rules: {toy/letters: {options: {rows: perhaps}}}", "'perhaps' is neither true nor false"),
        ("rules: {toy/letters: {options: {reach: 3 furlongs}}}", "'3 furlongs' is neither a length"),
        ("rules: {toy/letters: {options: {names: a}}}", "'a' is not a list"),
        ("rules: {toy/letters: {options: {symbol: [a]}}}", "a list is not expected here"),
        ("rules: {toy/letters: {options: {most: 0}}}", "toy/letters: most must be 1 or more"),
        ("rules: {toy/letters: loud}", "found 'loud'; expected error, warning, note or off"),
        ("rules: {file/schema: off}", "file/schema cannot be switched off: what it finds has to be mended"),
        (
            "rules: {file/unreadable: off}",
            "file/unreadable cannot be switched off: what cannot be read cannot be judged",
        ),
        ("rules: {release/other-content: off}", "other-content cannot be switched off: what it finds has to be mended"),
        ("block: fatal", "lintarsia.yaml:1:8: block: found 'fatal'; expected one of error, warning, note or off"),
        ("overrides: [{paths: [a]}]", "'rules'"),
        ("max-size: huge", "max-size: found 'huge'"),
        ("limits: {supplies: -1}", "supplies in limits: found -1"),
        ("block: error\nblock: note", "lintarsia.yaml:2:1: 'block'"),
        ("- a", "lintarsia.yaml:1:1: the file holds a list"),
        ("a: [", "lintarsia.yaml:"),
    ],
)
def test_a_slip_is_told_with_its_place(read, text: str, told: str) -> None:
    with pytest.raises(Trouble) as caught:
        read(text)
    assert told in str(caught.value)


def test_several_slips_are_told_together(read) -> None:
    with pytest.raises(Trouble) as caught:
        read("exclud: []\nblock: fatal")
    assert str(caught.value).splitlines() == [
        "lintarsia.yaml:1:1: unknown key 'exclud'; did you mean 'exclude'?",
        "lintarsia.yaml:2:8: block: found 'fatal'; expected one of error, warning, note or off",
        "  mend  write error",
    ]


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ("rules: {toy/letters: warn}", "write warning"),
        ("rules: {toy/letters: {level: info}}", "write note"),
        ("rules: {toy/letters: false}", "write off"),
        ("rules: {zebra/stripes: off}", "lintarsia explain lists the rules"),
        ("rules: {file/schema: off}", "take it out, or give it a level"),
        ("block: [error]", None),
        ("exclude: drafts/", "write it as a list: [drafts/]"),
        ("charts: '*.chart.yaml'", 'write it as a list: ["*.chart.yaml"]'),
        ("limits: {float: 2 centimetres}", "write 2 cm"),
        ("yarn: {allowance: 10}", "write 10 %"),
        ('yarn: {allowance: "7,5 percent"}', "write 7.5 %"),
        ("yarn: {allowance: plenty}", None),
        ("max-size: 4 MB", "write 4 MiB"),
        ("max-size: 512kb", "write 512 KiB"),
        ("zebra: 1", "take it out; what is only for people can stand in a comment, after #"),
        (
            "rules: {toy/letters: {most: 2}}",
            "if it is an option of the rule, it stands under `options`: {options: {most: …}}",
        ),
        (
            "overrides: [{paths: ['*'], rules: {toy/letters: {most: 2}}}]",
            "if it is an option of the rule, it stands under `options`: {options: {most: …}}",
        ),
        ("rules: {toy/letters: {levl: note}}", None),  # the message says it
        ("- a", "write keys and values, such as `block: error`"),
    ],
)
def test_a_slip_brings_its_mend_where_there_is_an_obvious_one(read, text: str, mend: str | None) -> None:
    with pytest.raises(Trouble) as caught:
        read(text)
    mends = [line for line in str(caught.value).splitlines() if line.startswith("  mend  ")]
    assert mends == ([] if mend is None else [f"  mend  {mend}"])


@pytest.mark.parametrize(("text", "size"), [("4 MiB", 4194304), ("100 KiB", 102400), ("12", 12), ("7 B", 7)])
def test_sizes(text: str, size: int) -> None:
    assert parse_size(text) == size


def test_later_overrides_win_and_add_options(read, tmp_path: Path) -> None:
    settings = read(
        """
rules: {toy/letters: {options: {symbol: B, most: 2}}}
overrides:
  - {paths: [old], rules: {toy/letters: {level: error, options: {most: 5}}}}
  - {paths: ["old/new/*"], rules: {toy/letters: off}}
"""
    )
    plain, old, new = (settings.armed(str(tmp_path / name)) for name in ("a.yaml", "old/a.yaml", "old/new/a.yaml"))
    assert [(c.name, c.options.symbol, c.options.most) for c in plain.checks] == [("toy/letters", "B", 2)]
    assert [(c.name, c.options.symbol, c.options.most) for c in old.checks] == [("toy/letters", "B", 5)]
    assert new.checks == ()
    assert [a.levels for a in (plain, old, new)] == [{}, {"toy/letters": Level.ERROR}, {"toy/letters": Level.OFF}]
    assert settings.armed(str(tmp_path / "b.yaml")) is plain  # worked out once


def test_the_nearest_settings_hold_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "inner" / "deep").mkdir(parents=True)
    (tmp_path / "lintarsia.yaml").write_text("block: note\nexclude: [drafts]\n", encoding="utf-8")
    (tmp_path / "inner" / "lintarsia.yaml").write_text("max-size: 1 KiB\n", encoding="utf-8")
    outer, inner = find_settings("."), find_settings("inner/deep/x.chart.yaml")
    assert (outer.block, outer.exclude) == (Level.NOTE, ("drafts",))
    assert (inner.block, inner.exclude, inner.max_bytes) == (Level.ERROR, (), 1024)


def test_a_settings_file_that_cannot_be_read(tmp_path: Path, toy_book: Rulebook) -> None:
    with pytest.raises(Trouble, match="there is no such file"):
        read_settings(str(tmp_path / "gone.yaml"), rulebook=toy_book)
    (tmp_path / "latin.yaml").write_bytes(b"exclude: [\xe9]\n")
    with pytest.raises(Trouble, match="not UTF-8"):
        read_settings(str(tmp_path / "latin.yaml"), rulebook=toy_book)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ('charts: ["*.yaml", "[z-a]"]', "1:20"),
        ('exclude: ["[z-a]"]', "1:11"),
        ('overrides: [{paths: ["[z-a]"], rules: {}}]', "1:22"),
    ],
)
def test_a_path_pattern_that_is_not_in_order(read, text: str, place: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Trouble) as caught:
        read(text)
    assert str(caught.value) == f"lintarsia.yaml:{place}: z-a in [z-a] runs backwards; expected a-z"


def test_the_most_stitches_of_a_chart(read) -> None:
    assert read("max-stitches: 4097\n").max_stitches == 4097
    assert read("").max_stitches != 4097


ISSUE = "https://git.example.org/fox/issues/new?title={title}&body={body}"


def test_where_logs_may_be_sent(read) -> None:
    answers = read(f'answers: {{mail: knits@example.org, issue: "{ISSUE}"}}\n').answers
    assert (answers.mail, answers.issue) == ("knits@example.org", ISSUE)
    assert not read("").answers


@pytest.mark.parametrize(
    "said",
    [
        "mail: mailto:knits@example.org",
        'mail: "a@example.org?bcc=b@example.org"',
        'mail: "a@example.org\\nBcc: x"',
        'issue: "http://git.example.org/new?body={body}"',
        'issue: "javascript:alert({body})"',
        'issue: "https://git.example.org/new?title={title}"',
        'issue: "https://a@evil.example/new?body={body}"',
        "post: https://git.example.org/new",
    ],
)
def test_answers_go_by_mail_or_to_a_tracker_and_nowhere_else(read, said: str) -> None:
    with pytest.raises(Trouble, match=r"lintarsia\.yaml:1:\d+: .*answers"):
        read(f"answers: {{{said}}}\n")
