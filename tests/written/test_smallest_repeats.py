"""Brackets, asterisks and repeats: the smallest row for each form that they are written in.

The wordings are common practice; what each comes to was counted by hand. `smallest.py` says how it is told.
"""

from smallest import misread

BRACKETS = """
6: 2 x (k1 A, k2 B) -> 1kA 2kB 1kA 2kB
6: 2 × {k1 A, k2 B} -> 1kA 2kB 1kA 2kB
6: 2 times [k1 A, k2 B] -> 1kA 2kB 1kA 2kB
3: 1 time (k1 A, k2 B) -> 1kA 2kB
6: rep (k1 A, k2 B) twice -> 1kA 2kB 1kA 2kB
6: rep [k1 A, k2 B] twice -> 1kA 2kB 1kA 2kB
6: rep *k1 A, k2 B* twice -> 1kA 2kB 1kA 2kB
6: repeat {k1 A, k2 B} twice -> 1kA 2kB 1kA 2kB
6: (k1 A, k2 B) × 2 -> 1kA 2kB 1kA 2kB
6: (1 st A, 2 sts B) twice -> 1A 2B 1A 2B
5: (3 A, 2 B) -> 3A 2B
5: (3 A, 2 B). -> 3A 2B
5: (3 A, 2 B), ; -> 3A 2B
6: *(k1 A, k2 B); rep from * to end -> 1kA 2kB 1kA 2kB
6: *(k1 A, k2 B), rep from * to end -> 1kA 2kB 1kA 2kB
6: *(k1 A, k2 B) rep from * to end -> 1kA 2kB 1kA 2kB
6: *(k1 A, k2 B)*; rep between *s to end -> 1kA 2kB 1kA 2kB
5: k2 A (2nd strand), k3 B -> 2kA 3kB
5: k2 A (selvedge), k3 B -> 2kA 3kB
5: k2 A (weave in end of C), k3 B -> 2kA 3kB
5: k2 A (twist), k3 B -> 2kA 3kB
5: 2 A, 3 B (knit) -> 2A 3B
5: 2 A, 3 B (purl) -> 2A 3B
5: 2 A, 3 B (knitwise) -> 2A 3B
5: 2 A, 3 B (purlwise) -> 2A 3B
6: [k1 A, k2 B] x 2 times -> 1kA 2kB 1kA 2kB
5: [k1 A] x 2 times k3 B -> 2kA 3kB
5: [k1 A] twice more k3 B -> 2kA 3kB
5: [k1 A] 2 times in all k3 B -> 2kA 3kB
5: [k1 A] 2 times total k3 B -> 2kA 3kB
3: [k1 A, k2 B] x 1 time -> 1kA 2kB
3: [k1 A, k2 B] 1 time -> 1kA 2kB
"""
REPEATS = """
6: *k1 A, k2 B; rep from * to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; reps from * to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep across -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep around -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep throughout -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep until end -> 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep twice -> 1kA 2kB 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep once -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep from asterisk to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep from the star to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep from the * to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B* rep between * and * to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B* rep between stars to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B* rep between the asterisks to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B* rep from * to * to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B* rep from * to * once more -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B* rep between *s once more -> 1kA 2kB 1kA 2kB
6: k1 A, k2 B, rep to end -> 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * for a total of 3 times -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * a total of 3 times -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * 3 times in all -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * 3 times in total -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * 3 times altogether -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * 3 times total -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * 2 times -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * 2 more times -> 1kA 2kB 1kA 2kB 1kA 2kB
9: *k1 A, k2 B; rep from * twice more -> 1kA 2kB 1kA 2kB 1kA 2kB
7: *k1 A, k2 B; rep from *, end k1 A -> 1kA 2kB 1kA 2kB 1kA
7: *k1 A, k2 B; rep from *; ending k1 A -> 1kA 2kB 1kA 2kB 1kA
7: *k1 A, k2 B; rep from * ends with k1 A -> 1kA 2kB 1kA 2kB 1kA
7: *k1 A, k2 B; rep from * across, ending k1 A -> 1kA 2kB 1kA 2kB 1kA
7: *k1 A, k2 B; rep from * across, end with p1 A -> 1kA 2kB 1kA 2kB 1pA
7: *k1 A, k2 B; rep from *, end A -> 1kA 2kB 1kA 2kB 1A
7: *k1 A, k2 B; rep from *, end with A -> 1kA 2kB 1kA 2kB 1A
7: *k1 A, k2 B; rep from *, ending with A. -> 1kA 2kB 1kA 2kB 1A
7: *k1 A, k2 B; rep from *, end with 1 A -> 1kA 2kB 1kA 2kB 1A
8: *k1 A, k2 B; rep from *, end with ssk A -> 1kA 2kB 1kA 2kB 1ssk A
7: *k1 A, k2 B; rep from *, end with A, k1 -> 1kA 2kB 1kA 2kB 1kA
10: *k1 A, k2 B; rep from *, ending ssk A, k2 B -> 1kA 2kB 1kA 2kB 1ssk A 2kB
8: *k1 A, k2 B; rep from *, end [k1 A] twice -> 1kA 2kB 1kA 2kB 2kA
9: *k1 A, k2 B* 3 times -> 1kA 2kB 1kA 2kB 1kA 2kB
7: *k1 A, k2 B* to last st, k1 A -> 1kA 2kB 1kA 2kB 1kA
8: k1 C, *k1 A, k2 B* twice, k1 C -> 1kC 1kA 2kB 1kA 2kB 1kC
8: k1 C, *k1 A, k2 B; rep from * to last st, k1 C -> 1kC 1kA 2kB 1kA 2kB 1kC
10: *k1 A, **k1 B, k1 C; rep from ** once more; rep from * to end -> 1kA 1kB 1kC 1kB 1kC 1kA 1kB 1kC 1kB 1kC
12: *k1 A, **k1 B, k1 C**, k1 A, rep from ** once more, rep from * once -> 1kA 1kB 1kC 1kB 1kC 2kA 1kB 1kC 1kB 1kC 1kA
6: †k1 A, k2 B; rep from † to end -> 1kA 2kB 1kA 2kB
6: **k1 A, k2 B; rep from ** to end -> 1kA 2kB 1kA 2kB
6: ∗k1 A, k2 B; rep. from ∗ to end -> 1kA 2kB 1kA 2kB
6: *k1 A, k2 B; rep *-* to end -> 1kA 2kB 1kA 2kB
6: k1 A and k2 B alternately to end -> 1kA 2kB 1kA 2kB
6: k1 A, k2 B alternately -> 1kA 2kB 1kA 2kB
7: k1 C, k1 A, k2 B alternately to end -> 1kC 1kA 2kB 1kA 2kB
6: k1 A, k2 B alternately twice -> 1kA 2kB 1kA 2kB
7: k1 A, k2 B alternating, end k1 A -> 1kA 2kB 1kA 2kB 1kA
6: alternate k1 A, k2 B to end -> 1kA 2kB 1kA 2kB
6: alternate 1 A, 2 B to end -> 1A 2B 1A 2B
6: alternate 1 A, B to end -> 1A 1B 1A 1B 1A 1B
6: alternating k1 A and k1 B to last 2 sts, k2 C -> 1kA 1kB 1kA 1kB 2kC
9: k3 C, alternate k1 A, k2 B -> 3kC 1kA 2kB 1kA 2kB
6: alternate k1 A -> 6kA
4: (k1 A, k1 B alternately) twice -> 1kA 1kB 1kA 1kB
6: k2 A, p1 B rib to end -> 2kA 1pB 2kA 1pB
6: k2 A, p1 B rib -> 2kA 1pB 2kA 1pB
6: k2 A, p1 B ribbing twice -> 2kA 1pB 2kA 1pB
5: *k1 A; rep from * to last 3 sts, *k1 B; rep from * to end -> 2kA 3kB
6: [ssk A, k1 B] to end -> 1ssk A 1kB 1ssk A 1kB
9: [k1 A, k2 B] to last 2 sts, k2 C -> 1kA 2kB 1kA 2kB 2kC left 1 uneven 1 after 2
8: [k1 A, k2 B] to last 2 sts, k2 C -> 1kA 2kB 1kA 2kB 2kC
5: [k1 A, k2 B] to end -> 1kA 2kB left 2 uneven 2 after 1
2: *k1 A, k2 B; rep from * to end -> 1kA 2kB left -1 uneven -1 after 1
10: *k1 A, k2 B; rep from * to last 2 sts, k2 C -> 1kA 2kB 1kA 2kB 2kC left 2 uneven 2 after 2
10: k1 C, [k1 A, [k1 B] twice] to end -> 1kC 1kA 2kB 1kA 2kB 1kA 2kB
7: [k1 A, with B, k1, k1] to last st, k1 -> 1kA 2kB 1kA 3kB
5: [k1 A, ssk] to end, k1 -> 1kA 1ssk A 1kA left 1 uneven 2 after 1
5: [k1 A, with B k2] to end, k1 -> 1kA 3kB left 1 uneven 2 after 1
100000: 100000 A -> 100000A
4: alternate k A to end -> 4kA
6: *k1 A, **k1 B, k1 C; rep from * once -> 1kA 1kB 1kC 1kA 1kB 1kC
"""


def test_brackets() -> None:
    assert misread(BRACKETS) == []


def nested(deep: int) -> str:
    return "(" * deep + "k1 A" + ") x 1" * deep


def test_twelve_brackets_in_each_other_and_any_number_behind_each_other() -> None:
    assert misread(f"1: {nested(12)} -> 1kA") == []
    for before in ("", "(k1 A) x 1, " * 3):
        assert misread(f"1: {before}{nested(13)} -> ?? the brackets go too deep to follow @ (") == []
    assert misread(f"15: {'(k1 A) x 1, ' * 13}k2 B -> 13kA 2kB") == []


def test_repeats() -> None:
    assert misread(REPEATS) == []
