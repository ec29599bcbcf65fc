"""Words that say nothing, or too much: what is told, and which of the words are pointed at.

The wordings are common practice; what each comes to was counted by hand. `smallest.py` says how it is told.
"""

from smallest import misread

REFUSED = """
5: k3 A ? k2 B -> ?? '?' says nothing here; expected stitches such as k3 A @ ?
5: k3 A % k2 B -> ?? '%' says nothing here; expected stitches such as k3 A @ %
5: k3 A ] k2 B -> ?? this bracket closes nothing @ ]
5: (k3 A ] k2 B) -> ?? this bracket closes nothing; expected ')' @ ]
5: (k3 A, k2 B -> ?? this bracket is not closed; expected ')' @ (
5: k1 B, [k3 A, k2 B -> ?? this bracket is not closed; expected ']' @ [
5: k1 B, {k3 A, k2 B -> ?? this bracket is not closed; expected '}' @ {
5: k3 A, k2 B (5 sts] -> ?? this bracket closes nothing; expected ')' @ ]
6: (3 A, 2 B). C -> ?? nothing says how often the bracket is worked; expected `4 times` @ )
6: k1 C (3 A, 2 B) -> ?? nothing says how often the bracket is worked; expected `4 times` @ )
8: [k1 A, k1 B to last st], k1 C -> ?? nothing says how often the bracket is worked; expected `4 times` @ ]
5: k3 (A B), k2 B -> ?? nothing says how often the bracket is worked; expected `4 times` @ )
5: k3 bone (A), k2 A -> ?? nothing says how often the bracket is worked; expected `4 times` @ )
5: k2 A (foo 3), k3 B -> ?? 'foo' says nothing here; expected stitches such as k3 A @ foo
5: k2 A (foo a), k3 B -> ?? 'foo' says nothing here; expected stitches such as k3 A @ foo
5: k2 A (foo knit), k3 B -> ?? 'foo' says nothing here; expected stitches such as k3 A @ foo
5: 2 A (purl), 3 B -> ?? nothing says how many these are; expected a count @ purl
5: 2 A (k), 3 B -> ?? nothing says how many these are; expected a count @ k
5: (3 sts) 4 times -> ?? there is nothing to repeat here @ (
5: 3 with bobbin 1 A, 2 B -> ?? nothing says the colour of these 3; expected a colour of the key @ 3
5: k3 in foo A, k2 B -> ?? 'in' says nothing here; expected stitches such as k3 A @ in
5: k3 z, k2 B -> ?? there is no colour 'z' in the key; it has A, B, C @ z
5: k3 A, k2 q -> ?? there is no colour 'q' in the key; it has A, B, C @ q
5: k3 A x -> ?? 'x' says nothing here; expected stitches such as k3 A @ x
5: k3 rusk -> ?? 'rusk' says nothing here; did you mean 'Rust red'? @ rusk
5: k3 Bo -> ?? 'Bo' says nothing here; expected stitches such as k3 A @ Bo
5: k3 Bonne -> ?? 'Bonne' says nothing here; did you mean 'Bone'? @ Bonne
5: k3 dusky -> ?? 'dusky' says nothing here; did you mean 'Dusk blue'? @ dusky
5: k3 A ½ -> ?? '½' says nothing here; expected stitches such as k3 A @ ½
5: 3 xA -> ?? nothing says the colour of these 3; expected a colour of the key @ 3
5: k3 '' -> ?? "'" says nothing here; expected stitches such as k3 A @ '
5: k3 'A -> ?? "'" says nothing here; expected stitches such as k3 A @ '
5: k3 "Bane", k2 B -> ?? 'Bane' is no colour of the key @ "Bane"
5: k3 'A0', k2 B -> ?? 'A0' is no colour of the key @ 'A0'
5: k1234567 A -> ?? 1234567… is more than anybody knits; expected a count @ 1234567
5: k1234567890123456 A -> ?? 123456789012… is more than anybody knits; expected a count @ 1234567890123456
5: k 2 rows A -> ?? 'rows' says nothing here; expected stitches such as k3 A @ rows
5: Knit: -> ?? nothing says the colour here; expected one of the key @ Knit
5: 3 × A, 2 times B -> ?? nothing says what is worked so often; expected a bracket @ 2 times
5: 3 times A -> ?? nothing says what is worked so often; expected a bracket @ 3 times
5: 3 time A -> ?? nothing says what is worked so often; expected a bracket @ 3 time
5: 3, 2 B -> ?? nothing says the colour of these 3; expected a colour of the key @ 3
5: 3 foo, 2 B -> ?? nothing says the colour of these 3; expected a colour of the key @ 3
5: 3 sts foo, 2 B -> ?? nothing says the colour of these 3; expected a colour of the key @ 3 sts
5: 5 sts, k3 A, k2 B -> ?? nothing says the colour of these 5; expected a colour of the key @ 5 sts
5: 5 sts. 3 A, ssk B -> ?? nothing says the colour of these 5; expected a colour of the key @ 5 sts
5: k3 A, 5 sts, k2 B -> ?? nothing says the colour of these 5; expected a colour of the key @ 5 sts
5: k to last 2 sts, k2 C -> ?? nothing says the colour here; expected one of the key @ k to last 2 sts
5: k4 C, k -> ?? nothing says how many these are; expected a count @ k
5: A x, B 2 -> ?? 'x' says nothing here; expected stitches such as k3 A @ x
5: no foo -> ?? 'no' says nothing here; expected stitches such as k3 A @ no
5: as foo -> ?? 'as' says nothing here; expected stitches such as k3 A @ as
5: leave -> ?? 'leave' says nothing here; expected stitches such as k3 A @ leave
5: rib 5 -> ?? 'rib' says nothing here; expected stitches such as k3 A @ rib
6: *k1 A, k2 B; rep -> ?? 'rep' says nothing here; expected stitches such as k3 A @ rep
6: *k1 A, k2 B; rep from foo to end -> ?? the repeat does not say from where; expected * @ rep
6: *k1 A, k2 B; rep from to end -> ?? the repeat does not say from where; expected * @ rep
6: *k1 A, k2 B; rep between to end -> ?? the repeat does not say from where; expected * @ rep
6: k1 A, k2 B, rep from * to end -> ?? nothing says where this repeat begins; expected a * before it @ rep
6: k1 A, k2 B, rep between stars to end -> ?? nothing says where this repeat begins; expected a * before it @ rep
6: rep to end -> ?? nothing says where this repeat begins; expected a * before it @ rep
6: *; rep from * to end -> ?? there is nothing to repeat here @ rep
6: [] twice -> ?? there is nothing to repeat here @ [
6: k1 A, () twice -> ?? there is nothing to repeat here @ (
3: ssk -> ?? nothing says the colour here; expected one of the key @ ssk
5: k2 -> ?? nothing says the colour here; expected one of the key @ k2
5: k3, k2 A -> ?? nothing says the colour here; expected one of the key @ k3
5: p to last 2 sts, k2 -> ?? nothing says the colour here; expected one of the key @ p to last 2 sts
5: 5 sts foo -> ?? nothing says the colour of these 5; expected a colour of the key @ 5 sts
5: patt 3 foo -> ?? nothing says the colour of these 3; expected a colour of the key @ 3
5: ssk twice -> ?? nothing says the colour here; expected one of the key @ ssk twice
5: [with A] to end -> ?? this repeat works no stitch, so it has no end @ [with A] to end
5: [m1 A] to end -> ?? this repeat works no stitch, so it has no end @ [m1 A] to end
5: k1 B, [m1 A] to last st, k1 B -> ?? this repeat works no stitch, so it has no end @ [m1 A] to last st
5: k to last 5 sts A, [m1 A] to end -> ?? this repeat works no stitch, so it has no end @ [m1 A] to end
7: k3 (4) A, k2 (3, 4) B -> ?? nothing says the colour of these 3; expected a colour of the key @ 3
5: left foo, k3 A -> ?? 'left' says nothing here; expected stitches such as k3 A @ left
5: foo next st A, 4 B -> ?? 'foo' says nothing here; expected stitches such as k3 A @ foo
5: the foo, k5 A -> ?? 'the' says nothing here; expected stitches such as k3 A @ the
5: that side, k3 A -> ?? 'that' says nothing here; expected stitches such as k3 A @ that
6: (k1 A, k2 B) from here -> ?? nothing says how often the bracket is worked; expected `4 times` @ )
6: Knit: 1 C, (3 A, 2 B) -> ?? nothing says how often the bracket is worked; expected `4 times` @ )
6: * **A, B; rep from * once; rep from ** once -> ?? nothing says where this repeat begins; expected a * before it @ rep
"""
ENDLESS = """
9: 999999 A, k2 B -> ?? this comes to more than 100,000 stitches @ 999999 A
9: 999999 sts in A, k2 B -> ?? this comes to more than 100,000 stitches @ 999999 sts in A
9: k999999 in A, k2 B -> ?? this comes to more than 100,000 stitches @ k999999 in A
9: k999999 sts A, k2 B -> ?? this comes to more than 100,000 stitches @ k999999 sts A
9: k2 B, A x 999999, k2 B -> ?? this comes to more than 100,000 stitches @ A x 999999
9: A 999999 sts, k2 B -> ?? this comes to more than 100,000 stitches @ A 999999 sts
9: A k999999, k2 B -> ?? this comes to more than 100,000 stitches @ A k999999
9: ssk 999999 times A, k2 B -> ?? this comes to more than 100,000 stitches @ ssk 999999 times A
9: next st B, inc in next st A, 999999 B, k2 B -> ?? this comes to more than 100,000 stitches @ 999999 B
9: work 999999 sts A, k2 B -> ?? this comes to more than 100,000 stitches @ 999999 sts A
9: patt 999999 sts, k2 A -> ?? this comes to more than 100,000 stitches @ patt 999999 sts
9: work 999999, k2 B -> ?? this comes to more than 100,000 stitches @ work 999999
9: [k9999 A] 999999 times, k2 B -> ?? this comes to more than 100,000 stitches @ k9999 A
9: [with A] 999999 times, k2 B -> ?? this comes to more than 100,000 stitches @ [with A] 999999 times
9: [[k9999 A] 9999 times] 2 times -> ?? this comes to more than 100,000 stitches @ k9999 A
9: *k9999 A* 999999 times -> ?? this comes to more than 100,000 stitches @ k9999 A
9: *k9999 A; rep from * 999999 times, k2 B -> ?? this comes to more than 100,000 stitches @ k9999 A
9: k9999 A, k9999 B alternately 999999 times, k2 B -> ?? this comes to more than 100,000 stitches @ k9999 A
9: k9999 A rib 999999 times -> ?? this comes to more than 100,000 stitches @ k9999 A
9: k9999 A, CO 999999 sts B, k2 B -> ?? this comes to more than 100,000 stitches @ CO 999999 sts
9: k9999 A, cast on 999999 sts in B, k2, k2 B -> ?? this comes to more than 100,000 stitches @ cast on 999999 sts
100001: 100001 A, k2 B -> ?? this comes to more than 100,000 stitches @ 100001 A
100001: A to end -> ?? this comes to more than 100,000 stitches @ A to end
100001: k A to end -> ?? this comes to more than 100,000 stitches @ k A to end
100001: all sts in A, k2 B -> ?? this comes to more than 100,000 stitches @ all sts in A
100001: the rest A, k2 B -> ?? this comes to more than 100,000 stitches @ the rest A
100001: to end A -> ?? this comes to more than 100,000 stitches @ to end A
100001: knit in A. turn -> ?? this comes to more than 100,000 stitches @ knit in A
100001: to last 2 sts A, k2 B -> ?? this comes to more than 100,000 stitches @ k2 B
200000: k to last 2 sts A, k2 B -> ?? this comes to more than 100,000 stitches @ k to last 2 sts A
200000: A k to last 2 sts, k2 B -> ?? this comes to more than 100,000 stitches @ A k to last 2 sts
200000: work even in A, k2 B -> ?? this comes to more than 100,000 stitches @ work even in A
200000: k1 B, rem sts A, k2 B -> ?? this comes to more than 100,000 stitches @ rem sts A
9: *with A; rep from * to end -> ?? this repeat works no stitch, so it has no end @ rep from * to end
9: with A, with B alternately to end -> ?? this repeat works no stitch, so it has no end @ alternately to end
9: with A, with B rib to end -> ?? this repeat works no stitch, so it has no end @ rib to end
9: alternate m1 A, m1 B to end -> ?? this repeat works no stitch, so it has no end @ alternate m1 A, m1 B to end
100001: with A -> ?? this comes to more than 100,000 stitches @ with A
100001: A only -> ?? this comes to more than 100,000 stitches @ A only
100001: row 7 of the chart -> ?? this comes to more than 100,000 stitches @ row 7 of the chart
100001: dec 1 st at each end -> ?? this comes to more than 100,000 stitches @ dec 1 st at each end
9: 100000 B, inc 1 A, k2 C -> ?? this comes to more than 100,000 stitches @ inc 1 A
9: 100000 B, ssk A, k2 C -> ?? this comes to more than 100,000 stitches @ ssk A
9: 100000 B, next st A, k2 C -> ?? this comes to more than 100,000 stitches @ next st A
9: 100000 B, last st in A, k2 C -> ?? this comes to more than 100,000 stitches @ last st in A
9: 100000 B, k A, k2 C -> ?? this comes to more than 100,000 stitches @ k A
9: 100000 B, inc in first st A, k2 C -> ?? this comes to more than 100,000 stitches @ inc in first st
9: 100000 B, make 1 A, k2 C -> ?? this comes to more than 100,000 stitches @ make 1
9: 100000 B, A, k2 C -> ?? this comes to more than 100,000 stitches @ A
9: 100000 B, A k1, k2 C -> ?? this comes to more than 100,000 stitches @ A k1
9: 100000 B, BO 1 st (1 st on needle), k2 C -> ?? this comes to more than 100,000 stitches @ BO 1 st (1 st on needle)
200000: in patt to last 2 sts, k2 B -> ?? this comes to more than 100,000 stitches @ in patt to last 2 sts
"""


def test_words_that_say_nothing() -> None:
    assert misread(REFUSED) == []


def test_what_nobody_knits_is_pointed_at() -> None:
    assert misread(ENDLESS) == []


def test_a_repeat_says_how_often() -> None:
    said = "?? the repeat does not say how often; expected `to end`, `to last 2 sts` or `3 times more`"
    assert misread(f"6: *k1 A, k2 B; rep from * -> {said} @ rep from *") == []
    assert misread(f"6: *k1 A, k2 B; rep from * foo -> {said} @ rep from *") == []
    said = "?? the row's end does not say its stitches; expected `end k1` or the like"
    assert misread(f"8: *k1 A, k2 B; rep from *, end k A to end -> {said} @ rep from *, end") == []
