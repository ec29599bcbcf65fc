"""Words that point at the chart or at the row below, counts of a whole row, sizes and labels.

The wordings are common practice; what each comes to was counted by hand. `smallest.py` says how it is told.
"""

from smallest import misread

FOLLOWING = """
5: k all sts as they appear -> 2kA 3kB
5: k the purls as set -> 1kA 1kB 1kA 1kB 1kA
5: k sts matching colours -> 2kA 3kB
5: purl, matching colours -> 2pA 3pB
5: purl in patt -> 1pA 1pB 1pA 1pB 1pA
5: k as they appear, matching colours -> 2kA 3kB
5: k3 in patt, k2 B -> 1kA 1kB 1kA 2kB
5: k to last 2 sts in patt, k2 C -> 1kA 1kB 1kA 2kC
5: work 3, k2 B -> 1A 1B 1A 2kB
5: work 3 sts, k2 B -> 1A 1B 1A 2kB
5: work 3 sts as set, k2 B -> 1A 1B 1A 2kB
5: work 3 sts in A, k2 B -> 3A 2kB
5: work 3 A, 2 B -> 3A 2B
5: work 3 k A, 2 B -> 3kA 2B
5: work k3 A, k2 B -> 3kA 2kB
5: k2, work 3 -> 1kA 1kB 1A 1B 1A
5: patt 3, k2 B -> 1A 1B 1A 2kB
5: pattern 3 sts, k2 B -> 1A 1B 1A 2kB
5: patt 3 A, 2 B -> 3A 2B
5: patt to last 2 sts, k2 B -> 1A 1B 1A 2kB
5: in patt to last 2 sts, k2 B -> 1A 1B 1A 2kB
5: keeping patt correct, k3 A, k2 B -> 3kA 2kB
5: keeping patt correct -> 1A 1B 1A 1B 1A
5: keeping patt correct, -> 1A 1B 1A 1B 1A
5: following patt, k3 A, k2 B -> 3kA 2kB
5: maintaining patt, 3 A, 2 B -> 3A 2B
5: as established -> 1A 1B 1A 1B 1A
5: as follows: k3 A, k2 B -> 3kA 2kB
5: as folls: k3 A, k2 B -> 3kA 2kB
5: work even -> 1A 1B 1A 1B 1A
5: work even in C -> 5C
5: work straight -> 1A 1B 1A 1B 1A
5: with C, work even -> 5C
5: work in patt -> 1A 1B 1A 1B 1A
5: work in patt to last 2 sts, k2 C -> 1A 1B 1A 2kC
5: work to last 2 sts, k2 C -> 1A 1B 1A 2kC
5: work to last 2 sts in patt, k2 C -> 1A 1B 1A 2kC
5: work to last 2 sts in C, k2 B -> 3C 2kB
5: cont in patt -> 1A 1B 1A 1B 1A
5: continue as established -> 1A 1B 1A 1B 1A
5: cont without shaping -> 1A 1B 1A 1B 1A
5: work without further shaping in C -> 5C
5: work RS rows even -> 1A 1B 1A 1B 1A
5: work even on all WS rows -> 1A 1B 1A 1B 1A
5: work across in patt -> 1A 1B 1A 1B 1A
5: work next 3 sts C, 2 B -> 3C 2B
5: work the next 3 sts in C, 2 B -> 3C 2B
5: work the rest in C -> 5C
5: work in st st: k3 A, k2 B -> 3kA 2kB
5: work in stocking stitch, 3 A, 2 B -> 3A 2B
5: work in stockinette st as foll: 3 A, 2 B -> 3A 2B
5: work st st 3 A, 2 B -> 3A 2B
5: work as follows: 3 A, 2 B -> 3A 2B
5: work 1 row even -> 1A 1B 1A 1B 1A
5: work back: p2 A, p3 B -> 2pA 3pB
5: work as set, k5 B -> 5kB
5: row 7 of the chart -> 1A 1B 1A 1B 1A row 7
5: work chart row 4 -> 1A 1B 1A 1B 1A row 4
5: chart, round 12. -> 1A 1B 1A 1B 1A row 12
5: work 3 sts k A, 2 B -> 3kA 2B
5: k1 A, keeping patt correct, k2 A, k2 B -> 3kA 2kB
"""
STATED = """
5: k3 A, k2 B (5 sts) -> 3kA 2kB (5 sts)
5: k3 A, k2 B (= 5 sts) -> 3kA 2kB (5 sts)
5: k3 A, k2 B (5 sts.) -> 3kA 2kB (5 sts)
5: k3 A, k2 B [5, in all] -> 3kA 2kB (5 sts)
5: k3 A, k2 B {5 sts} -> 3kA 2kB (5 sts)
5: k2 A, k3 B (5 sts on needle) -> 2kA 3kB (5 sts)
5: k2 A, k3 B (5 sts on needles). turn -> 2kA 3kB (5 sts)
5: k2 A, k3 B (5 sts now) -> 2kA 3kB (5 sts)
5: k2 A, k3 B (5 in total) -> 2kA 3kB (5 sts)
5: k2tog A, k3 B (1 st dec) -> 1k2tog A 3kB
5: k2tog A, k3 B (4 sts) (1 st decreased) -> 1k2tog A 3kB (4 sts)
5: k2tog A, k3 B. 4 sts. 1 st dec. -> 1k2tog A 3kB (4 sts)
5: 3 A, 2 B, 5 sts -> 3A 2B (5 sts)
5: 3 A, 2 B. 5 sts remain. -> 3A 2B (5 sts)
5: 3 A, 2 B. 5 sts rem -> 3A 2B (5 sts)
5: 5 sts: 3 A, 2 B -> 3A 2B (5 sts)
5: Knit: 3 A, 2 B, 5 sts -> 3kA 2kB (5 sts)
5: (3 sts on needle), k2 A, k3 B -> 2kA 3kB
5: (3 sts on needles), 2 A, 3 B -> 2A 3B
5: (3 sts on needle), ssk A, 3 B -> 1ssk A 3B
5: k3 A, k2 B (5) -> 3kA 2kB (5 sts)
5: k3 A, k2 B (5). -> 3kA 2kB (5 sts)
5: k3 A, k2 B, dec 1 st at each end of next 3 rows (2 sts) -> 3kA 2kB (2 sts) shaped after several rows
0: no sts -> (0 sts)
0: no stitches -> (0 sts)
"""
FIRST_SIZE = """
5: k3 (4, 5) A, k2 (3, 4) B -> 3kA 2kB 3 sizes
5: k3 [4, 5] A, k2 [3, 4] B -> 3kA 2kB 3 sizes
5: k3 (4: 5) A, k2 B -> 3kA 2kB 3 sizes
3: k3 (4-5) A -> 3kA 3 sizes
5: k3 (4) A, k2 (3) B -> 3kA 2kB 2 sizes
5: k3 (4) sts A, k2 (3) sts B -> 3kA 2kB 2 sizes
5: 3 (4, 5) A, 2 (3, 4) B. 5 (7, 9) sts -> 3A 2B (5 sts) 3 sizes
6: [k1 A, k2 B] 2 (3, 4) times -> 1kA 2kB 1kA 2kB 3 sizes
6: [k1 A, k2 B] 2 (3) times -> 1kA 2kB 1kA 2kB 2 sizes
6: *k1 A, k2 B; rep from * 1 (2, 3) times more -> 1kA 2kB 1kA 2kB 3 sizes
4: k2 A 2 (3, 4) times -> 4kA 3 sizes
5: k A to last 2 (3) sts, k2 (3) C -> 3kA 2kC 2 sizes
"""
SECOND_SIZE = """
7: k3 (4, 5) A, k2 (3, 4) B -> 4kA 3kB 3 sizes
7: k3 (4) A, k2 (3) B -> 4kA 3kB 2 sizes
"""
LABELS = """
5: k3 A, k2 B (WS) -> 3kA 2kB WS
5: Row 3: k3 A, k2 B (WS) -> 3kA 2kB row 3 WS
5: Row 3 (RS): k3 A, k2 B (WS) -> 3kA 2kB row 3 RS
5: k3 A, k2 B (wrong side) -> 3kA 2kB WS
5: k3 A, k2 B [right side] -> 3kA 2kB RS
5: 7: k3 A, k2 B -> 3kA 2kB row 7
5: WS: k3 A, k2 B -> 3kA 2kB WS
5: [RS] k3 A, k2 B -> 3kA 2kB RS
5: WS rows: p3 A, p2 B -> 3pA 2pB WS
5: Row 7 RS: k3 A, k2 B -> 3kA 2kB row 7 RS
5: RS facing row 7: k3 A, k2 B -> 3kA 2kB row 7 RS
5: Next and every foll WS row: p3 A, p2 B -> 3pA 2pB after several rows
5: Row 3 and all foll RS rows: k3 A, k2 B -> 3kA 2kB
5: Rows 3 to 5: k3 A, k2 B -> 3kA 2kB row 3, 4, 5
5: Rows 3, 5 and 9: k3 A, k2 B -> 3kA 2kB row 3, 5, 9
5: Rows 3 & 9: k3 A, k2 B -> 3kA 2kB row 3, 9
5: Shape neck: k3 A, k2 B -> 3kA 2kB
5: Armhole shaping: row 5: k3 A, k2 B -> 3kA 2kB row 5
5: Left neck side, row 8 (WS): p3 A, p2 B -> 3pA 2pB row 8 WS
5: Row one: k3 A, k2 B -> 3kA 2kB row 1
5: First row: k3 A, k2 B -> 3kA 2kB row 1
5: Tenth round: k3 A, k2 B -> 3kA 2kB row 10
5: Row twenty: k3 A, k2 B -> 3kA 2kB row 20
5: Row 3: as row 1 -> as 1 row 3
5: as row 1. -> as 1
5: Row 7: work as for row 3 -> as 3 row 7
5: rep rows 3–5 twice more -> as 3 4 5
5: repeat row 3 (5 sts) -> as 3
5: Row 7: work as for row 3 -> as 3 row 7
5: like for row 3 -> as 3
"""


def test_the_chart_and_the_row_below_are_followed() -> None:
    assert misread(FOLLOWING, charted="ABABA", below="AABBB") == []


def test_a_count_of_the_row_is_said() -> None:
    assert misread(STATED) == []


def test_the_first_of_several_sizes() -> None:
    assert misread(FIRST_SIZE) == []


def test_the_second_of_several_sizes() -> None:
    assert misread(SECOND_SIZE, size=1) == []


def test_what_a_row_is_called() -> None:
    assert misread(LABELS) == []


def test_the_last_size_stands_for_those_behind_it() -> None:
    assert misread("9: k3 (4, 5) A, k2 (3, 4) B -> 5kA 4kB 3 sizes", size=5) == []


def test_symbols_that_could_mean_something_else() -> None:
    assert misread("5: M1, k4 A -> 1M 4kA\n5: k3 m, k2 a -> 3kM 2kA", "MAB") == []
    assert misread("5: m1, k4 A -> 1m 4kA", "mAB") == []
    assert misread("5: k3 †, k2 A -> 3k† 2kA\n5: † 3, A 2 -> 3† 2A", "†AB") == []
    assert misread("5: 3 k, 2 A -> 3k 2A\n5: 3 k k, 2 p A -> 3kk 2pA\n5: k3 k, k2 A -> 3kk 2kA", "kAB") == []
    assert misread("5: 3 k, 2 p -> 3k 2p\n5: 3 k k, 2 p p -> 3kk 2pp", "kp") == []
    assert misread("5: k3 1, k2 A -> 3k1 2kA\n5: 3 1, 2 A -> 31 2A\n5: 3 x 1, 2 A -> 31 2A", "1A") == []
    assert misread("5: join A and k; k3, k2 k -> 3kA 2kk\n5: join A and k3, k2 k -> 3kA 2kk", "kA") == []
    assert misread("5: k3 W/k2 A -> 3kW 2kA\n5: W 3/A 2 -> 3W 2A", "WA") == []
    assert misread("5: k3 w/k2 A -> 3kw 2kA", "wA") == []
    assert misread("5: k3 #, # 2 -> 3k# 2#\n5: k3 A, # k2 -> 3kA 2k#", "#A") == []
    assert misread("5: k3 a, k2 with a new B -> 3ka 2kB\n5: with a k3, k2 B -> 3ka 2kB", "aB") == []
