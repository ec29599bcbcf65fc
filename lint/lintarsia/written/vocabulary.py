"""The words of written rows. Abbreviations a house list, from memory; the rest common practice."""

from collections.abc import Mapping

KNIT = frozenset({"k", "knit", "knits", "kt"})
PURL = frozenset({"p", "purl", "purls"})
SLIP = frozenset({"sl", "slip"})
STITCH_WORDS = frozenset({"st", "sts", "stitch", "stitches"})
REPEAT = frozenset({"rep", "reps", "rpt", "repeat", "repeating"})
TAKE_UP = frozenset({"with", "using", "in", "change", "use"})
FILLERS = frozenset({"in", "with", "using", "of", "the", "colour", "color", "col", "shade", "yarn"})
JOIN = frozenset({"join", "cut", "break", "fasten", "finish", "drop"})
IGNORED = frozenset({"then", "and", "work", "turn", "pm", "sm", "rm", "next", "wyib", "wyif", "now"})

SHAPING = frozenset({"dec", "decs", "decrease", "decreasing", "inc", "incs", "increase", "increasing", "bo", "co"})
SHAPING_WORDS = frozenset(
    {
        "at",
        "each",
        "both",
        "beg",
        "beginning",
        "start",
        "end",
        "ends",
        "edge",
        "edges",
        "side",
        "sides",
        "left",
        "right",
    }
    | {"right", "of", "the", "this", "following", "and", "row", "round", "rnd", "dec", "decrease", "inc", "increase"}
)
ASIDE = frozenset(
    {"total", "in", "all", "now", "remain", "remaining", "rem", "left", "on", "needle", "needles", "there", "are"}
    | {"made", "dec", "inc", "decreased", "increased"}
)

# Words that a row is made of, which no part of a colour's name can stand for.
KEPT = frozenset(
    KNIT
    | PURL
    | SLIP
    | STITCH_WORDS
    | REPEAT
    | TAKE_UP
    | FILLERS
    | JOIN
    | IGNORED
    | SHAPING
    | SHAPING_WORDS
    | ASIDE
    | {
        "to",
        "from",
        "last",
        "until",
        "till",
        "times",
        "time",
        "more",
        "once",
        "twice",
        "across",
        "around",
        "every",
        "no",
    }
)

# Stitches of the row below that one takes, and stitches that it makes.
NAMED_STITCHES: Mapping[str, tuple[int, int]] = {
    **dict.fromkeys(("k2tog", "p2tog", "k2togtbl", "p2togtbl", "ssk", "ssp", "skp"), (2, 1)),
    **dict.fromkeys(("k3tog", "p3tog", "k3togtbl", "p3togtbl", "s2kp", "sk2p", "sk2po", "sssk"), (3, 1)),
    **dict.fromkeys(("kfb", "pfb", "kf&b"), (1, 2)),
    **dict.fromkeys(("m1", "m1l", "m1r", "m1p", "yo", "yfwd", "yrn"), (0, 1)),
}

_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
NUMBER_WORDS: Mapping[str, int] = {"once": 1, "twice": 2, "thrice": 3, **{w: i for i, w in enumerate(_NUMBERS, 1)}}
