"""A knitter who has the words alone: she counts what hangs on her needle and does what each clause says.

Nothing of lintarsia's own reader is used. She keeps the live stitches of the whole work, of each side once it is
parted, and of what waits; every clause takes stitches and makes stitches; a line that does not use up what hangs there,
or that comes to another count than it says, stops her.
"""

import re
from dataclasses import dataclass, field

LABEL = re.compile(
    r"^(?:(Right|Left) (?:neck side|side of the slit), )?(?:[Rr]ow|[Rr]ound) (\d+)(?: \((RS|WS)\))?: (.*)$"
)
COUNT = re.compile(r"\. \((\d+) sts?\)(.*)$")
SIDE = re.compile(r"^(right|left) (?:neck side|side of the slit): ")
STITCHES = re.compile(r"^([kp])(\d+) (\S+)$")
DECREASE = re.compile(r"^(ssk|ssp|skp|skpo|[kp]([23])tog) (\S+)$")
AGAIN = re.compile(r"\[([^\[\]]*)\] (\d+) times")
OFF = re.compile(r"^(?:BO|cast off) (?:rem )?(\d+) sts?(?: at beg)?(?: \((?:right|left|neck) edge\))?$")
HOLD = re.compile(r"^place (?:first |next |last |rem )?(\d+) sts? on a holder$")
ON = re.compile(r"^(?:CO|cast on) (\d+) sts?(?: (\S+))?(?: at beg \((?:right|left|neck) edge\))?$")
MORE = re.compile(r"^(inc|dec) (\d+) sts?(?: at (each end|beg|end)(?: \((?:right|left|neck) edge\))?)?$")
QUIET = re.compile(r"^(?:join|rejoin|take up|fasten off|cut|place the sts of the side)\b")
ENDS = ("Leave ", "Work both sides", "Cut ")


QUOTES = '"'


class StuckError(AssertionError):
    """The words cannot be followed any further."""


@dataclass
class Part:
    """One side's clauses worked: the colours made, what was taken off the needle, what was bound off before."""

    made: list[str] = field(default_factory=list)
    taken: int = 0
    kinds: str = ""


@dataclass
class Knitter:
    """`whole`, `sides` and `waits` are counts of live stitches; `rows` what was knitted: (row, side) to its colours.

    With `yarns` (not None) the words name every yarn: `A2` is worked only between "join A2" and "Cut A2".
    `textured`: there are purl and garter stitches; `kinds` has what was knitted and purled, as `rows` has the colours.
    """

    whole: int
    sides: dict[str, int] = field(default_factory=dict)
    waits: int = 0
    rows: dict[tuple[int, str], str] = field(default_factory=dict)
    faces: dict[int, str] = field(default_factory=dict)
    yarns: set[str] | None = None
    textured: bool = False
    kinds: dict[tuple[int, str], str] = field(default_factory=dict)

    def line(self, text: str) -> None:
        match = LABEL.match(text)
        if match is None:
            raise StuckError(f"no row's label: {text}")
        half, row, said = (match[1] or "").lower(), int(match[2]), match[4]
        count = COUNT.search(said)
        if count is None or not all(map(_known, count[2].split(". "))):
            raise StuckError(f"no count, or an unknown ending: {text}")
        self.faces[row] = match[3] or "RS"
        parts = _parts(said[: count.start()], half)
        total = sum(len(part.made) for part in parts.values())
        if total != int(count[1]):
            raise StuckError(f"{total} made, {count[1]} said: {text}")
        self._hold(parts, said[: count.start()], count[2], text)
        for side, part in parts.items():
            if not self.textured and set(part.kinds) - {"k" if self.faces[row] == "RS" else "p"}:
                raise StuckError(f"{part.kinds} on the {self.faces[row]}: {text}")
            self.kinds[row, side] = part.kinds
            self.rows[row, side] = "".join(name.strip(QUOTES)[0] for name in part.made)
        self._use(parts, text)

    def _hold(self, parts: dict[str, Part], said: str, after: str, text: str) -> None:
        """The yarns that hang on the work: joined before they are worked, gone once they are cut."""
        if self.yarns is None:
            return
        new = {name for listed in re.findall(r"\bjoin ([^;]*)", said) for name in re.split(r", | and ", listed)}
        if again := new & self.yarns:
            raise StuckError(f"{again} joined twice: {text}")
        self.yarns |= new
        if missing := {name for part in parts.values() for name in part.made} - self.yarns:
            raise StuckError(f"{missing} not joined: {text}")
        for listed in re.findall(r"Cut ([^.]*)\.", after):
            self.yarns -= set(re.split(r", | and ", listed))

    def _use(self, parts: dict[str, Part], text: str) -> None:
        if "" in parts:
            live = self.whole + sum(self.sides.values())
            if self.waits or parts[""].taken != live:
                raise StuckError(f"{live} on the needle and {self.waits} waiting, {parts[''].taken} worked: {text}")
            self.whole, self.sides = len(parts[""].made), {}
            return
        for side, part in parts.items():
            if side in self.sides:
                live = self.sides[side]
            elif self.whole:  # the row that parts the work: so far as the first side goes, the rest waits
                live, self.waits, self.whole = part.taken, self.whole - part.taken, 0
            else:
                live, self.waits = self.waits, 0
            if part.taken != live or self.waits < 0:
                raise StuckError(f"{live} on the needle of the {side} side, {part.taken} worked: {text}")
            self.sides[side] = len(part.made)


def _known(sentence: str) -> bool:
    return not sentence.strip() or sentence.strip().startswith(ENDS)


def _parts(said: str, half: str) -> dict[str, Part]:
    """The clauses of a line by side; what is said before any side is named belongs to the line's own."""
    parts: dict[str, Part] = {}
    while AGAIN.search(said):
        said = AGAIN.sub(lambda m: ", ".join([m[1]] * int(m[2])), said)
    now = half
    for clause in re.split(r"; ", said):
        if (named := SIDE.match(clause)) is not None:
            now, clause = named[1], clause[named.end() :]
        part = parts.setdefault(now, Part())
        for word in re.split(r", (?=\S)", clause) if not QUIET.match(clause) else []:
            for piece in word.split(" and ") if MORE.match(word.split(" and ")[0]) else [word]:
                _do(piece, part)
    return parts


def _do(word: str, part: Part) -> None:
    if match := STITCHES.match(word):
        part.made += [match[3]] * int(match[2])
        part.taken += int(match[2])
        part.kinds += match[1] * int(match[2])
    elif match := DECREASE.match(word):
        part.made.append(match[3])
        part.taken += int(match[2] or 2)
        part.kinds += "p" if match[1][0] == "p" or match[1] == "ssp" else "k"
    elif match := OFF.match(word) or HOLD.match(word):
        part.taken += int(match[1])
    elif (match := ON.match(word)) and "at beg" in word:
        part.taken -= int(match[1])  # the words after it are worked over the new stitches
    elif match := ON.match(word):
        part.made += [match[2] or part.made[-1]] * int(match[1])
    elif match := MORE.match(word):
        ends = 2 if match[3] == "each end" else 1
        part.taken += int(match[2]) * ends * (1 if match[1] == "dec" else -1)
    elif word not in ("no stitches", ""):
        raise StuckError(f"what is {word!r}?")
