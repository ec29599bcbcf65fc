"""Colours, counts and verbs: the smallest row for each form that they are written in.

The wordings are common practice; what each comes to was counted by hand. `smallest.py` says how it is told.
"""

from smallest import misread

COLOURS_NAMED = """
5: 3 in A, 2 in B -> 3A 2B
5: 3 with the A, 2 using B -> 3A 2B
5: 3 with a 2nd ball of A, 2 B -> 3A 2B
5: 3 with 2nd A, 2 B -> 3A 2B
5: 3 with bobbin 1 (A), 2 with bobbin 2 [B] -> 3A 2B
5: 3 in a new A, 2 of the B -> 3A 2B
5: k3 (A), k2 [B] -> 3kA 2kB
5: k3 {A}, k2 B -> 3kA 2kB
5: k3-A, k2-B -> 3kA 2kB
5: k3 A ball, k2 with second B bobbin -> 3kA 2kB
5: k3 A yarn, k2 with yarn B -> 3kA 2kB
5: k3 with extra strand A, k2 B -> 3kA 2kB
5: k3 in a ball of A, k2 B -> 3kA 2kB
5: k3 in the colour A, k2 shade B -> 3kA 2kB
5: k3 bone (B), k2 A -> 3kB 2kA
5: k3 bone [B], k2 A -> 3kB 2kA
5: k3 bone {B}, k2 A -> 3kB 2kA
5: 3 sts bone (B), 2 A -> 3B 2A
5: 3 bone (b), 2 A -> 3B 2A
5: k3 dusk-blue, k2 bone -> 3kA 2kB
5: k3 rust-red, k2 bone -> 3kC 2kB
5: k3 red, k2 blue -> 3kC 2kA
5: k3 main, k2 cc2 -> 3kA 2kC
5: k3 MC, k2 CC -> 3kA 2kB
5: k3 A1, k2 B2 -> 3kA 2kB
9: k3A6B -> 3kA 6B
4: 3 A2 B -> 3A 1B
5: k3 'A', k2 "B" -> 3kA 2kB
5: k3 «A», k2 ‘B’ -> 3kA 2kB
5: k3 “A”, k2 B -> 3kA 2kB
5: k3 'Dusk blue', k2 'bone' -> 3kA 2kB
5: k3 ' bone ', k2 'a' -> 3kB 2kA
5: k3 'a', k2 'CC' -> 3kA 2kB
5: k3 'A1', k2 'B12' -> 3kA 2kB
5: k₃ A, k₂ B -> 3kA 2kB
5: 3xA, 2xB -> 3A 2B
5: 3XA, 2XB -> 3A 2B
5: k3 w/A, k2 w/ B -> 3kA 2kB
5: three A, two B -> 3A 2B
20: nineteen A, k one B -> 19A 1kB
5: k3 A · k2 B -> 3kA 2kB
5: k3 'A' k2 B -> 3kA 2kB
5: k3 B, k2 D -> 3kB 2kA
5: k3 B, k2 d -> 3kB 2kA
"""
COUNTS = """
5: k next 3 sts A, k2 B -> 3kA 2kB
5: k the first 3 sts in A, k foll 2 sts B -> 3kA 2kB
5: p following 3 stitches A, p final 2 B -> 3pA 2pB
5: k last st A, 4 B -> 1kA 4B
5: k first stitch A, k rem 4 B -> 1kA 4kB
5: k remaining 5 A -> 5kA
5: k across next 3 sts in A, k2 B -> 3kA 2kB
5: k across the first 3 sts in A, k2 B -> 3kA 2kB
5: k across last 3 sts A, k2 B -> 3kA 2kB
5: k across following 3 sts A, k2 B -> 3kA 2kB
5: k across rem 5 A -> 5kA
5: k across remaining 5 A -> 5kA
5: k across A -> 5kA
5: k3 tbl A, k2 B -> 3kA 2kB
5: k3 sts purlwise A, k2 B kwise -> 3kA 2kB
5: k 1 row A -> 5kA
5: k 1 rnd A -> 5kA
5: k 1 round A -> 5kA
5: k A 1 row -> 5kA
5: k2 A twice, k1 B -> 4kA 1kB
7: k2 A thrice, k1 B -> 6kA 1kB
7: k2 A 3 times, k1 B -> 6kA 1kB
6: k2 A 3x -> 6kA
7: k2 A 3×, k1 B -> 6kA 1kB
7: k2 A 3x; k1 B -> 6kA 1kB
7: k2 A 3x. k1 B -> 6kA 1kB
5: k2 A, 3x B -> 2kA 3B
5: Knit: 3 A, 2 B -> 3kA 2kB
5: K as follows: 3 A, 2 B -> 3kA 2kB
5: K as foll: 3 A, 2 B -> 3kA 2kB
5: K as folls: 3 A, 2 B -> 3kA 2kB
5: Knit across: 3 A, 2 B -> 3kA 2kB
5: Knit row: 3 A, 2 B -> 3kA 2kB
5: Purl back: 3 A, 2 B -> 3pA 2pB
5: Purl as below: 3 A, 2 B -> 3pA 2pB
5: Knit, working the sts as foll: 3 A, 2 B -> 3kA 2kB
4: k alternately 1 A, 1 B to end -> 1kA 1kB 1kA 1kB
5: Knit A: -> 5kA
5: k(3 A, 2 B) -> 3kA 2kB
5: p[3 A, 2 B] -> 3pA 2pB
9: k(3 A, 2 B), 4 C -> 3kA 2kB 4kC
10: k *3 A, 2 B; rep from * to end -> 3kA 2kB 3kA 2kB
10: BO 3, k until there are 4 sts on right needle A, k3 B -> 4kA 3kB
5: k until 4 sts on right-hand needle A, k1 B -> 4kA 1kB
5: k until 4 sts are on the rh needle A, k1 B -> 4kA 1kB
5: 3 sts knit in A, 2 sts purled in B -> 3kA 2pB
5: 3 knit A, 2 purl B -> 3kA 2pB
5: 3 k A, 2 p B -> 3kA 2pB
5: 3 x A, 2 × B -> 3A 2B
5: 3 A sts, 2 B stitches -> 3A 2B
5: k even A -> 5kA
5: p straight A -> 5pA
5: k A only -> 5kA
5: k A throughout -> 5kA
5: knit in A. turn -> 5kA
5: A; knit -> 1A 4kA
5: 3 A, knit B -> 3A 2kB
2: (knit A) twice -> 2kA
5: k A, k4 C -> 1kA 4kC
5: k4 C, k A -> 4kC 1kA
5: sl 1 A, k4 B -> 1sl A 4kB
5: sl1 A, k4 B -> 1sl A 4kB
5: slip 2 purlwise A, k3 B -> 2sl A 3kB
5: next st A, 4 B -> 1A 4B
5: the first st A, 4 B -> 1A 4B
2: next st, last stitch in A -> 2A
5: the next 3 sts A, 2 B -> 3A 2B
5: then k3 A, and finally k2 B -> 3kA 2kB
5: pm, k3 A, m, k2 B -> 3kA 2kB
5: k3 A, turn, k2 B -> 3kA 2kB
5: k to last 2 sts A, k2 C -> 3kA 2kC
5: k to last 2 sts in A, k2 C -> 3kA 2kC
5: k in A to last 2 sts, k2 C -> 3kA 2kC
5: k A to last 2 sts, k2 C -> 3kA 2kC
5: all sts A -> 5A
5: rem sts in A -> 5A
5: remaining sts A -> 5A
5: rest A -> 5A
5: the rest in A -> 5A
5: complete the row in A -> 5A
5: complete rnd A -> 5A
5: the whole row A -> 5A
5: the entire round A -> 5A
5: the rnd in A -> 5A
5: k3 A, to end B -> 3kA 2B
5: to last 2 sts A, k2 B -> 3A 2kB
5: 3 sts knit A, 2 sts purl B -> 3kA 2pB
6: k2tog to end A -> 3k2tog A
6: k2tog to last 2 sts A, k2 B -> 2k2tog A 2kB
5: k4 B, k last stitch A -> 4kB 1kA
5: k4 B, k last st A -> 4kB 1kA
"""
COLOUR_FIRST = """
5: A x 3, B x 2 -> 3A 2B
5: A × 3, B × 2 -> 3A 2B
5: A 3, B 2 -> 3A 2B
5: A3, B2 -> 3A 2B
5: A-3, B-2 -> 3A 2B
5: A k3, B p2 -> 3kA 2pB
5: A knit 3, B purl 2 -> 3kA 2pB
5: A: k3, B: 2 -> 3kA 2B
3: A, B, C -> 1A 1B 1C
5: A – 3, B – 2 -> 3A 2B
5: A — 3 sts, B = 2 sts. -> 3A 2B
5: A - 3; B - 2 -> 3A 2B
5: A – 3 | B – 2 -> 3A 2B
4: A – 3 B -> 1A 3B
6: A – 3 B, 2 A -> 1A 3B 2A
5: A = 3/B = 2 -> 3A 2B
5: A, k3, B, k2 -> 3kA 2kB
6: A, k3 B, k2 A -> 1A 3kB 2kA
5: A, p3; B, p2 -> 3pA 2pB
5: A to last 2 sts, B to end -> 3A 2B
5: A only -> 5A
5: A throughout -> 5A
5: A k -> 5kA
5: A k3, B k to end -> 3kA 2kB
5: A 3 sts, B 2 stitches -> 3A 2B
5: (A) k3, (B) k2 -> 3kA 2kB
5: (A)3, (B)2 -> 3A 2B
5: (A) x 3, (B) x 2 -> 3A 2B
5: (A) × 3, (B) 2 sts -> 3A 2B
5: [A] p3, {B} p2 -> 3pA 2pB
5: [with A] k3, [with B] k2 -> 3kA 2kB
5: with A k3, in B k2 -> 3kA 2kB
5: change to A, k3, change back to B, k2 -> 3kA 2kB
5: switch to the A, k3, using B k2 -> 3kA 2kB
5: with A only, k5 -> 5kA
5: use A throughout -> 5A
4: with A -> 4A
4: A only -> 4A
4: cont in A -> 4A
"""
ONE_COLOUR = """
5: knit -> 5kA
5: purl. turn -> 5pA
5: knit; turn -> 5kA
5: knit (5 sts) -> 5kA (5 sts)
5: purl [5]. -> 5pA (5 sts)
5: k5 (5) -> 5kA (5 sts)
5: k5 (5). -> 5kA (5 sts)
5: knit 5 (5 sts) -> 5kA (5 sts)
"""


def test_a_colour_is_named() -> None:
    assert misread(COLOURS_NAMED) == []


def test_stitches_are_counted() -> None:
    assert misread(COUNTS) == []


def test_the_colour_stands_first() -> None:
    assert misread(COLOUR_FIRST) == []


def test_a_row_of_one_colour_need_not_name_it() -> None:
    assert misread(ONE_COLOUR, only="A") == []


def test_what_stands_between_stretches() -> None:
    assert misread("\n".join(f"5: k3 A {mark} k2 B -> 3kA 2kB" for mark in ",;:.–—=|/&+>→·•")) == []
