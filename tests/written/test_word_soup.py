"""Whatever stands in a row is read, or told as unreadable: no heap of knitting words makes the reader fall over."""

import random

from lintarsia.written.colours import Colours
from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.parser import parse_row
from lintarsia.written.working import Shown, work_out

VOCABULARY = """
k p knit purl sl slip 3 6 12 1 A B a C MC in with using the rest rem remaining to end last sts st * ** ( ) [ ] { }
, ; : . - x times twice once more rep repeat from across alternate alternately as foll follows row Row 2 2nd ball
of new second join cut twist drop pick up and then & BO CO bind off cast on holder place dec inc each at k2tog ssk
kfb m1 tbl work even patt set colours matching established only back first next all every same Dusk blue bone 'A'
'' 0 99999 † / = > turn RS WS (RS): left neck side stitches two three thrice or a an complete w/ shape armhole:
until on RH needle
"""
WORDS = VOCABULARY.split()
COLOURS = Colours("ABC", {"A": "Dusk blue", "B": "Bone", "C": "Rust"}, {"A": ["MC"], "B": ["CC"]})
SOUPS = 4_000


def faults_in(words: str) -> NotUnderstood | None:
    try:
        spoken = parse_row(words, COLOURS)
        if not spoken.as_rows:
            work_out(spoken.items, 12, None, Shown("AAABBBBBBAAA", "A" * 12))
    except NotUnderstood as fault:
        return fault
    return None


def test_a_heap_of_knitting_words_is_read_or_told_as_unreadable() -> None:
    dice = random.Random(7)
    heaps = [dice.choice(["", " ", " "]).join(dice.choices(WORDS, k=dice.randint(1, 9))) for _ in range(SOUPS)]
    faults = [(words, fault) for words in heaps if (fault := faults_in(words))]
    assert [words for words, fault in faults if not 0 <= fault.start <= fault.end <= len(words)] == []
    assert 0.02 < 1 - len(faults) / SOUPS < 0.9, "the heaps are all sense, or all nonsense: they try nothing"
