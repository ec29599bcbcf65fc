"""Files to fuzz with: real ones with pieces changed, and charts put together from a list of right and wrong values."""

import json
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from casefiles import every_case
from lintarsia.ground.kinds import Kind

ROOT = Path(__file__).parents[2]
CASES = list(every_case())
CHARTS = [case.chart for case in CASES if case.kind is Kind.CHART]
PATTERNS = [case.chart for case in CASES if case.kind is Kind.PATTERN]

PIECES = [
    "", " ", "  ", "\t", "\n", "\r\n", "\r", "\n\n", ":", ": ", "- ", "? ", "#", " # remark", "|", "|+", "|2-", ">",
    "'", '"', "\\", "{", "}", "[", "]", ",", ",\n", "&a ", "*a", "!!str ", "!", "%", "@", "`", "~", "null", "no", "0",
    "-1", "1e3", "0x10", "99999999999999999999", "1.5", "0 cm", "4 in", "9 m", "3 stitches", "<<: *a", "---\n",
    "...\n", "é", "🧶", "\u0301", "\u200b", "\ufeff", "\x00", "\x85", "\u2028", "A", "B", "W", ".", "..", "chart",
    "lintarsia: 1\n", "title: x\n", "supplies: {B: 1}\n", "supplies:\n  B: 0\n", "duplicate-stitch: []\n",
    "colours: {B: {name: x}}\n", "chart: >\n", "worked: round\n", "technique: stranded\n", "written: {1: k3 B}\n",
    "  B: {name: b}\n", "  BWB\n", "\n  BBBB  \n", "[[]]", "shaping: {2: -1}\n",
    "suppress: [{rule: colour/unused, justification: x}]\n", "{a: {b: [c, {d: e}]}}", "? [x]\n: y\n",
]  # fmt: skip


@st.composite
def changed(draw: st.DrawFn, texts: list[str]) -> bytes:
    """A real file with lines moved, doubled and cut, pieces put in or taken out, in any encoding of a line's end."""
    text = draw(st.sampled_from(texts))
    for _ in range(draw(st.integers(0, 4))):
        lines = text.splitlines(keepends=True) or [""]
        one, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
        match draw(st.integers(0, 6)):
            case 0:
                lines[one], lines[other] = lines[other], lines[one]
            case 1:
                lines.insert(one, lines[other])
            case 2:
                del lines[one]
            case 3:  # the last of a row goes: short rows, missing brackets
                lines[one] = lines[one][:-2] + lines[one][-1:]
            case _:
                start = draw(st.integers(0, len(text)))
                length = draw(st.sampled_from([0, 0, 1, 1, 2, 5, 20]))
                lines = [text[:start], draw(st.sampled_from(PIECES)), text[start + length :]]
        text = "".join(lines)
    text = text.replace("\n", draw(st.sampled_from(["\n", "\n", "\n", "\r\n", "\r"])))
    if draw(st.integers(0, 4)) == 0:
        text = text.rstrip("\r\n")
    data = text.encode("utf-8", "surrogatepass")
    if draw(st.integers(0, 9)) == 0:
        data = b"\xef\xbb\xbf" + data
    if data and draw(st.integers(0, 9)) == 0:
        at = draw(st.integers(0, len(data) - 1))
        data = data[:at] + draw(st.binary(max_size=3)) + data[at + 1 :]
    return data


SYMBOLS = ["B", "W", "R", "#", "é", "*", "1", "'", ":"]
NUMBERS = st.one_of(st.integers(-2, 40), st.sampled_from([0, 1, 2, 10**9, 10**30, 1.5, -0.0]))
LENGTHS = st.sampled_from(
    ["10 cm", "4 in", "0 cm", "2 m", "1e9 m", "3", "3 stitches", "0 stitches", "4 mm", "-1 cm", ""]
)
PLAIN = st.one_of(st.none(), st.booleans(), NUMBERS, LENGTHS, st.text(max_size=3))
SHALLOW = PLAIN | st.lists(PLAIN, max_size=3) | st.dictionaries(st.text(max_size=2), PLAIN, max_size=3)
ODD: st.SearchStrategy[Any] = SHALLOW | st.lists(SHALLOW, max_size=2) | st.dictionaries(st.text(max_size=2), SHALLOW)


def rarely_odd(usual: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """`usual`, and now and then anything at all."""
    return st.integers(0, 29).flatmap(lambda number: ODD if number == 0 else usual)


def some(**members: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional={name.replace("_", "-"): rarely_odd(v) for name, v in members.items()})


def by_row(values: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.dictionaries(st.integers(0, 9).map(str), rarely_odd(values), max_size=3)


MASSES = st.sampled_from(["50 g", "0 g", "2 oz"])
SYMBOL, ROW = st.sampled_from(SYMBOLS), st.integers(0, 9)
SHADE = st.sampled_from(["#27406b", "#efe9dc", "#28416c", "#A8322D", "blue", "#fff"])
RANGE = st.lists(st.integers(0, 12), min_size=2, max_size=2)
COLOUR = some(name=st.sampled_from(["Dusk", "Bone", ""]), shade=SHADE, yarn=st.sampled_from(["dk", "none"]))
SUPPLY = st.integers(0, 5) | st.lists(some(holder=st.sampled_from(["bobbin", "butterfly"]), length=LENGTHS), max_size=4)
CHANGES = st.integers(-3, 3) | some(left=st.integers(-2, 2), right=st.integers(-2, 2))
RULES = st.sampled_from(["area/single-stitch", "colour/unused", "grid/stitch-count", "file/schema", "nothing/such"])
GAUGE = st.fixed_dictionaries(
    {"stitches": NUMBERS, "rows": NUMBERS, "over": LENGTHS},
    optional={"needle": LENGTHS, "loop": LENGTHS, "float-gauge": some(stitches=NUMBERS, rows=NUMBERS)},
) | st.just({"stitches": 22, "rows": 30, "over": "10 cm"})
PARTS = {
    "worked": st.sampled_from(["flat", "round", "turned"]),
    "first-row": st.sampled_from(["RS", "WS"]),
    "technique": st.sampled_from(["intarsia", "stranded", "mixed"]),
    "yarns": st.dictionaries(
        st.sampled_from(["dk", "4ply"]),
        some(name=st.text(max_size=4), weight=NUMBERS, length=LENGTHS, mass=MASSES, balls=NUMBERS),
        max_size=2,
    ),
    "supplies": st.dictionaries(SYMBOL, rarely_odd(SUPPLY), max_size=4),
    "limits": some(supplies=NUMBERS, float=LENGTHS, carry=NUMBERS, idle=NUMBERS, strand=NUMBERS),
    "repeat": some(stitches=RANGE, rows=RANGE),
    "shaping": by_row(CHANGES),
    "wearer": st.sampled_from(["infant", "child", "adult"]),
    "symmetry": st.lists(st.sampled_from(["left-right", "top-bottom", "half-turn"]), max_size=3),
    "duplicate-stitch": st.lists(some(colour=SYMBOL, row=ROW, stitches=RANGE), max_size=3),
    "written": by_row(st.sampled_from(["k3 B", "k2 B, p1 W", "*k1 B; rep from * to end", "(", "k99999999 B"])),
    "suppress": st.lists(some(rule=RULES, row=ROW, stitches=RANGE, justification=st.text(max_size=3)), max_size=2),
}  # fmt: skip
# Mostly plain fields with a slip in them, which is where fixes are offered.
GRID = st.lists(st.text("BBBBBBBW.R#", min_size=1, max_size=9), min_size=1, max_size=7) | st.builds(
    lambda width, height, slips: [
        "".join(slips.get((row, column), "B") for column in range(width)) for row in range(height)
    ],
    st.integers(3, 12),
    st.integers(3, 9),
    st.dictionaries(
        st.tuples(st.integers(0, 8), st.integers(0, 11)), st.sampled_from(["", "W", "WW", "R", ". "]), max_size=4
    ),
)  # fmt: skip


@st.composite
def put_together(draw: st.DrawFn) -> bytes:
    """A chart with any of its parts, right or wrong, in block or flow style."""
    parts: dict[str, Any] = {"lintarsia": draw(rarely_odd(st.just(1))), "title": draw(rarely_odd(st.just("Any")))}
    parts["gauge"] = draw(rarely_odd(GAUGE))
    parts["colours"] = draw(rarely_odd(st.dictionaries(SYMBOL, rarely_odd(COLOUR), min_size=1, max_size=5)))
    for name in draw(st.lists(st.sampled_from(sorted(PARTS)), max_size=5, unique=True)):
        parts[name] = draw(rarely_odd(PARTS[name]))
    for name in draw(st.lists(st.sampled_from(sorted(parts)), max_size=1)):
        del parts[name]
    text = "".join(_section(name, value, flow=draw(st.booleans())) for name, value in parts.items())
    ends = draw(st.sampled_from(["\n", "\n", "\r\n", "\r"]))
    rows = "".join(f"  {row}\n" for row in draw(GRID))
    text += f"chart: {draw(st.sampled_from(['|', '|', '|', '|', '>', '|-', '|+']))}\n{rows}"
    text += draw(st.sampled_from(["", "", "\n# the end\n", "written:\n  1: k3 B\n"]))
    return text.replace("\n", ends).encode("utf-8", "surrogatepass")


def _section(name: str, value: Any, *, flow: bool) -> str:
    if flow or not isinstance(value, dict) or not value:
        return f"{name}: {json.dumps(value, ensure_ascii=False)}\n"
    lines = (f"  {json.dumps(k, ensure_ascii=False)}: {json.dumps(v, ensure_ascii=False)}\n" for k, v in value.items())
    return f"{name}:\n{''.join(lines)}"
