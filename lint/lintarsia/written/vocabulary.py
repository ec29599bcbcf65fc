"""The words of written rows. Abbreviations a house list, from memory; the rest common practice."""

from collections.abc import Mapping

KNIT = frozenset({"k", "knit", "knits", "kt", "kn", "knitted", "knitting"})
PURL = frozenset({"p", "purl", "purls", "purled", "purling"})
SLIP = frozenset({"sl", "slip"})
STITCH_WORDS = frozenset({"st", "sts", "stitch", "stitches"})
REPEAT = frozenset({"rep", "reps", "rpt", "repeat", "repeating"})
TAKE_UP = frozenset({"with", "using", "in", "change", "changing", "switch", "switching", "use"})
FILLERS = frozenset({"in", "with", "using", "of", "the", "colour", "color", "col", "shade"})
# What is done with yarns and markers between stitches. After the first, the yarn that they name is in hand.
TAKES = frozenset(
    {"join", "joining", "rejoin", "rejoining", "attach", "attaching", "add", "adding", "introduce", "tie"}
    | {"pick", "picking", "bring", "bringing", "start", "starting"}
)
PUTS = frozenset(
    {"cut", "cutting", "break", "breaking", "fasten", "fastening", "finish", "drop", "dropping", "twist", "twisting"}
    | {"cross", "crossing", "interlock", "interlocking"}
)
MINDS = frozenset(
    {"weave", "weaving", "remember", "remembering", "carry", "carrying", "catch", "catching", "strand", "stranding"}
    | {
        "place",
        "placing",
        "remove",
        "removing",
        "leaving",
        "making",
        "taking",
        "lay",
        "laying",
        "note",
        "ensure",
        "do",
        "beg",
        "beginning",
    }
)
MARKER = frozenset({"m", "marker", "markers"})
YARN_WORDS = frozenset({"yarn", "ball", "balls", "length", "strand", "bobbin", "bobbins", "butterfly"})
NOT_COLOURS = YARN_WORDS | frozenset(
    {"first", "second", "third", "new", "another", "other", "separate", "fresh", "extra", "a"}
)
ORDINALS = frozenset({"st", "nd", "rd", "th"})
HOW = frozenset({"tbl", "purlwise", "knitwise", "pwise", "kwise", "wyib", "wyif"})
WORK = frozenset({"work", "cont", "continue", "continuing", "working"})
EVEN = frozenset({"even", "straight", "plain", "on", "back"})
RIBBED = frozenset({"rib", "ribbing"})
FOLLOWS = frozenset({"foll", "folls", "follows", "below"})
ALTERNATELY = frozenset({"alternate", "alternately", "alternating"})
ONLY = frozenset({"only", "throughout"})
IGNORED = frozenset(
    {
        "then",
        "and",
        "turn",
        "pm",
        "sm",
        "rm",
        "next",
        "wyib",
        "wyif",
        "now",
        "end",
        "ending",
        "ends",
        "first",
        "last",
        "total",
    }
    | {"following", "foll", "also", "each", "every", "finally", "lastly"}
)

SHAPING = frozenset({"dec", "decs", "decrease", "decreasing", "inc", "incs", "increase", "increasing"})
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
        "neck",
        "armhole",
        "side",
        "sides",
        "left",
        "right",
    }
    | {"right", "of", "the", "this", "following", "and", "row", "round", "rnd", "dec", "decrease", "inc", "increase"}
)
# When a row that is shaped comes again: `next and every foll 4th row until 20 sts rem`.
SCHEDULE = frozenset(
    {
        "next",
        "foll",
        "every",
        "alt",
        "alternate",
        "other",
        "these",
        "rows",
        "rounds",
        "rnds",
        "rs",
        "ws",
        "on",
        "in",
        "then",
    }
    | {"times", "time", "twice", "once", "more", "until", "rem", "remain", "th", "nd", "rd", "st"}
)
# Behind a number of stitches: how many more or fewer they are now, which is not what the row comes to.
CHANGED = frozenset({"made", "dec", "inc", "decreased", "increased"})
ASIDE = CHANGED | frozenset(
    {"total", "in", "all", "now", "remain", "remaining", "rem", "left", "on", "needle", "needles", "there", "are"}
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
    | TAKES
    | PUTS
    | MINDS
    | MARKER
    | HOW
    | WORK
    | EVEN
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
_TWO = ("k2tog", "p2tog", "k2togtbl", "p2togtbl", "ssk", "ssp", "skp", "skpo", "sl1k1psso", "s1k1psso")
_THREE = (
    *("k3tog", "p3tog", "k3togtbl", "p3togtbl", "s2kp", "s2kp2", "sk2p", "sk2po", "sssk"),
    *("sl1k2togpsso", "s1k2togpsso", "sl2k1p2sso", "sl2togk1p2sso"),
)
NAMED_STITCHES: Mapping[str, tuple[int, int]] = {
    **dict.fromkeys(_TWO, (2, 1)),
    **dict.fromkeys(_THREE, (3, 1)),
    **dict.fromkeys(["kfb", "pfb", "kf&b", "pf&b", "k1fb", "p1fb", "k1f&b", "p1f&b"], (1, 2)),
    **dict.fromkeys(["m1", "m1l", "m1r", "m1p", "yo", "yfwd", "yrn"], (0, 1)),
}

_NUMBERS = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
)
CARDINALS: Mapping[str, int] = {word: number for number, word in enumerate(_NUMBERS, 1)}
NUMBER_WORDS: Mapping[str, int] = {"once": 1, "twice": 2, "thrice": 3, **CARDINALS}
