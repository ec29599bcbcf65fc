"""Words that change the count, and words that work no stitch: the smallest row for each form.

The wordings are common practice; what each comes to was counted by hand. `smallest.py` says how it is told.
"""

from smallest import misread

SHAPED = """
5: b.o. 2 sts, k3 A -> 3kA
5: B.O. 2 sts, k3 A -> 3kA
5: b.o 2 sts, k3 A -> 3kA
5: b/o 2 sts, k3 A -> 3kA
5: c/o 2 sts, k3 A -> 3kA
5: BO 2, k3 A -> 3kA
5: bo2, k3 A -> 3kA
5: bind off next 2 sts, k3 A -> 3kA
5: bind off two sts, k3 A -> 3kA
5: bind/cast off 2 sts, k3 A -> 3kA
5: cast / bind off 2 sts, k3 A -> 3kA
5: bind (cast) off 2 sts, k3 A -> 3kA
5: cast (bind) off 2 sts, k3 A -> 3kA
5: cast-off 2 sts, k3 A -> 3kA
5: bind off (cast off) 2 sts, k3 A -> 3kA
5: BO all sts ->
5: BO the rem sts ->
5: BO 2 sts A, k3 B -> 3kB
5: BO 2 sts in A, k to end -> 3kA
5: BO 2 sts at beg of row in A, k to end -> 3kA
8: cast off 3 sts in A, k until 2 sts rem, k2 B -> 3kA 2kB
5: BO 2 sts (1 st on right needle), k2 A -> 1A 2kA
5: BO 2 sts (1 st left on needle after bind off), k2 A -> 1A 2kA
3: k3 A. (3 sts) BO all sts -> 3kA (3 sts)
3: k3 A. (3 sts) Leave sts on a holder or bind off. -> 3kA (3 sts)
3: k3 A (3 sts), place 2 sts on a holder -> 3kA (3 sts)
3: k3 A (3 sts), slip next 2 sts onto a holder or cast off -> 3kA (3 sts)
5: k2 A, place 3 sts on a holder -> 2kA
5: slip next 3 sts onto a stitch holder, k2 A -> 2kA
5: leave sts on holder ->
5: to neck edge, k3 A, k2 B -> 3kA 2kB
5: on other side of neck, k3 A, k2 B -> 3kA 2kB
2: CO 3 sts at beg of row A, k5 A -> 5kA
2: co 3, k5 A -> 5kA
2: cast on three sts, k5 A -> 5kA
5: CO 2 sts A, k3 A, k4 B -> 3kA 4kB
3: k3 A, CO 2 sts B -> 3kA 2co B
3: k3 A, cast on 2 sts in B -> 3kA 2co B
3: k3 A, cast on 2 sts at end of row in B -> 3kA 2co B
3: k3 A, cast on 2 new sts -> 3kA 2co A
4: inc in first st A, k3 B -> 2inc A 3kB
2: k into front and back of next st A, k1 B -> 2inc A 1kB
4: inc 1 A, k3 B -> 2inc A 3kB
4: increase 1 in A, k3 B -> 2inc A 3kB
5: dec 1 in A, k3 B -> 1dec A 3kB
5: decrease 1 A, k3 B -> 1dec A 3kB
4: make 1 A, k4 B -> 1m1 A 4kB
4: make one in A, k4 B -> 1m1 A 4kB
4: k1 A, m1 B, k3 A -> 1kA 1m1 B 3kA
4: k1 A, M1L B, k3 A -> 1kA 1m1l B 3kA
4: k1 A, yo B, k3 A -> 1kA 1yo B 3kA
4: k1 A, k1f&b B, k2 A -> 1kA 2k1f&b B 2kA
4: k1 A, kfb B, k2 A -> 1kA 2kfb B 2kA
5: k1 A, sl 1, k1, psso B, k2 A -> 1kA 1sl1k1psso B 2kA
5: k1 A, sl1-k1-psso B, k2 A -> 1kA 1sl1k1psso B 2kA
6: k1 A, sl 1 k2tog psso B, k2 A -> 1kA 1sl1k2togpsso B 2kA
6: k1 A, s2kp B, k2 A -> 1kA 1s2kp B 2kA
5: k1 A, k2tog tbl B, k2 A -> 1kA 1k2togtbl B 2kA
5: k1 A, k 2 together B, k2 A -> 1kA 1k2tog B 2kA
5: k1 A, sl1, k1, pass slipped stitch over B, k2 A -> 1kA 1sl1k1psso B 2kA
7: ssk twice A, k3 B -> 2ssk A 3kB
8: ssk 3 times B, 2 A -> 3ssk B 2A
5: k1 A, dec 1 st (ssk) A, k2 B -> 1kA 1ssk A 2kB
6: dec 1 st (k2tog tbl) A, k4 B -> 1k2togtbl A 4kB
5: k3 A including st already on right needle, k2 B -> 3kA 2kB
5: dec 1 st at each end; k3 A, k2 B -> 3kA 2kB shaped
5: dec 1 st each end of next and every 4th row until 20 sts rem, k3 A, k2 B -> 3kA 2kB shaped after several rows
5: inc 1 st at beg (3 sts) k3 A, k2 B -> 3kA 2kB (3 sts) shaped
5: dec one st at armhole edge, k3 A, k2 B -> 3kA 2kB shaped
5: dec 2 sts, k3 A, k2 B -> 3kA 2kB shaped
5: inc k3 A, k2 B -> 3kA 2kB shaped
5: dec at each end p3 A, k2 B -> 3pA 2kB shaped
"""
QUIET = """
5: with RS facing, k3 A, k2 B -> 3kA 2kB
5: with wrong side facing you, k3 A, k2 B -> 3kA 2kB
5: using the intarsia method, k3 A, k2 B -> 3kA 2kB
5: at the right edge, k3 A, k2 B -> 3kA 2kB
5: starting at right-hand edge: k3 A, k2 B -> 3kA 2kB
5: k3 A, k2 B at neck edge -> 3kA 2kB
5: weave in ends of A, k3 B, k2 A -> 3kB 2kA
5: remember to twist: k3 A, k2 B -> 3kA 2kB
5: place marker, k3 A, k2 B -> 3kA 2kB
5: left neck side: k3 A, k2 B -> 3kA 2kB
5: right front: k3 A, k2 B -> 3kA 2kB
5: right half, k3 A, k2 B -> 3kA 2kB
5: left side of the slit: k3 A, k2 B -> 3kA 2kB
5: leave the left side on a holder; k3 A, k2 B -> 3kA 2kB
5: take up the yarn that hangs there; k3 A, k2 B -> 3kA 2kB
5: work both sides at once, k3 A, k2 B -> 3kA 2kB
5: work the sides separately, k3 A, k2 B -> 3kA 2kB
5: work each side, k3 A, k2 B -> 3kA 2kB
5: cont on these 5 sts only, k3 A, k2 B -> 3kA 2kB
5: join A, k3, k2 B -> 3kA 2kB
5: join A and B, k3, k2 B -> 3kA 2kB
5: join A1, B1 and C2; k3 A1, k2 B1 -> 3kA 2kB
5: join A1, k3, k2 B -> 3kA 2kB
3: join A, k3 B -> 3kB
5: join in new ball of A, k3, k2 B -> 3kA 2kB
5: join a second ball; k3 A, k2 B -> 3kA 2kB
5: attach B and k3, k2 A -> 3kB 2kA
5: attach B & k3, k2 A -> 3kB 2kA
5: pick up B then k3, k2 A -> 3kB 2kA
5: add A and B and k3, k2 A -> 5kA
4: join A ssk, k2 B -> 1ssk A 2kB
5: join A k3, k2 B -> 3kA 2kB
5: join A p to last 2 sts, k2 B -> 3pA 2kB
5: join A k across -> 5kA
5: join A k all -> 5kA
5: join A k rem sts -> 5kA
5: cut B, k3 A, k2 B -> 3kA 2kB
5: with B k3, cut B, k2 A -> 3kB 2kA
5: drop A, with B k3, k2 A -> 3kB 2kA
5: with A, k3, twist B over A, k2 -> 5kA
5: twist yarns, k3 A, k2 B -> 3kA 2kB
5: new A, k3, k2 B -> 3kA 2kB
5: second ball of A, k3, k2 B -> 3kA 2kB
5: another A k3, k2 B -> 3kA 2kB
5: with new strand, k3 A, k2 B -> 3kA 2kB
5: with new yarn, k3 A, k2 B -> 3kA 2kB
5: k3 A, with second bobbin k2 -> 5kA
5: using the second butterfly k3 A, k2 B -> 3kA 2kB
5: k3 A, with new strand of B k2 -> 3kA 2kB
5: sl m, k3 A, k2 B -> 3kA 2kB
5: slip marker, k3 A, k2 B -> 3kA 2kB
5: K.3 A, K.2 B -> 3kA 2kB
5: k3 A, k2 B for 4 rows -> 3kA 2kB
5: k3 A, k2 B until row 12 -> 3kA 2kB
5: k3 A, k2 B until piece measures 12 cm -> 3kA 2kB
5: k3 A, k2 B. Piece should now measure 4½ in. -> 3kA 2kB
5: work 4 rows in A -> 5A
3: join A then with B k3 -> 3kB
3: join A and with B k3 -> 3kB
3: join A & with B k3 -> 3kB
5: a new ball of B, k3, k2 A -> 3kB 2kA
5: a 2nd ball of B, k3, k2 A -> 3kB 2kA
5: a k3, b k2 -> 3kA 2kB
"""
AS_CHARTED = """
5: BO 3 sts -> 2A
5: BO 3 sts (5 sts) -> 2A (5 sts)
8: cast off 3 sts -> 2A 3B
5: CO 2 sts -> 2A 5B
5: dec 1 st at each end -> 2A 3B shaped
5: inc 1 st at each end (5 sts) -> 2A 3B (5 sts) shaped
5: dec 1 st at each end. no stitches -> left 5 (0 sts) shaped
5: inc, k3 B -> 2inc B 3kB left 1
4: inc 1, k3 B -> 2inc B 3kB
6: dec, k4 B -> 1dec B 4kB
5: k2, work 3 sts -> 2kA 3B
7: BO 2 sts, work 5 -> 2A 3B
3: ssk, k1 A -> 1ssk A 1kA
"""


def test_the_count_changes() -> None:
    assert misread(SHAPED) == []


def test_what_is_done_between_stitches_works_none() -> None:
    assert misread(QUIET) == []


def test_stitches_that_no_word_names_are_the_charted_ones() -> None:
    assert misread(AS_CHARTED, charted="AABBB") == []


def test_a_decrease_without_a_colour_has_that_of_a_neighbour() -> None:
    """The charted one of the two beside it, else the one before."""
    assert misread("4: k1 B, ssk, k1 A -> 1kB 1ssk B 1kA", charted="BBA") == []
    assert misread("4: k1 B, ssk, k1 A -> 1kB 1ssk A 1kA", charted="BAA") == []
    assert misread("4: k1 B, ssk, k1 A -> 1kB 1ssk B 1kA", charted="BCA") == []
    assert misread("3: k1 B, ssk -> 1kB 1ssk B", charted="BC") == []
    assert (
        misread("13: k2, k2tog, patt 5, ssk, k2 -> 1kA 1kB 1k2tog B 1A 1B 1C 1A 1B 1ssk B 2kB", charted="ABCABCABCAB")
        == []
    )
