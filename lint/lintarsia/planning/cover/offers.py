"""The opening of the search for the best links: all tails at once make offers for the heads they like best.

A round of the auction method of D. P. Bertsekas (Annals of Operations Research 14 (1988) 105–123) without his ε. A tail
offers for its cheapest head as much as makes it as good as its second choice (or "none"); the best offer wins, and the
tail that had the head is free again. After any number of rounds every link is its tail's cheapest at the prices reached
and heads without a tail still have price 0. That is all the exact search in `search.py` needs to go on.
"""

import numpy as np

from lintarsia.planning.runs import Integers

ROUNDS = 12  # measured on charts quantised from photographs: later rounds settle few more tails
ENOUGH = 64  # fewer tails than this are quicker searched one by one


def make_offers(
    first: Integers, head: Integers, cost: Integers, none: int
) -> tuple[Integers, Integers, Integers, Integers]:
    """(`taken`, `owner`, `price`, `open`) from links sorted by tail: tail t has those from first[t] to first[t + 1].

    `taken[t]` is the place of t's link in `head` (−1: none), `owner[h]` the tail that has h (−1: none), `price[h]` is
    0 or less, `open` the tails still to be searched for. `none`, the cost of going without, must be under 2**60.
    """
    count = np.diff(first)
    price, owner, taken = np.zeros(len(count), np.int64), np.full(len(count), -1), np.full(len(count), -1)
    active = np.flatnonzero(count)
    stalled = [active[:0]]
    for _ in range(ROUNDS):
        if len(active) <= ENOUGH:
            break
        choices = count[active]
        ends = np.cumsum(choices)
        begins = ends - choices
        place = np.arange(int(ends[-1])) + np.repeat(first[active] - begins, choices)
        wanted = head[place]
        value = 2 * (cost[place] - price[wanted]) + (owner[wanted] >= 0)  # of equals, a head that nobody has
        least = np.minimum.reduceat(value, begins)
        best = np.flatnonzero(value == np.repeat(least, choices))
        of = np.searchsorted(ends, best, side="right")
        best = best[np.concatenate(([True], of[1:] != of[:-1]))]
        value[best] = 2 * none
        raise_by = np.minimum(np.minimum.reduceat(value, begins) >> 1, none) - (least >> 1)
        offering = raise_by > 0
        # Where the second choice is as good, a head that someone has is not worth a quarrel: left to the search.
        tie = raise_by == 0
        offering |= tie & (least & 1 == 0)
        stalled.append(active[tie & (least & 1 == 1)])
        bidder, at = active[offering], place[best[offering]]
        offer = price[head[at]] - raise_by[offering]
        order = np.lexsort((offer, head[at]))
        bidder, at, offer = bidder[order], at[order], offer[order]
        aim = head[at]
        wins = np.ones(len(aim), bool)
        wins[1:] = aim[1:] != aim[:-1]
        losers, bidder, at, offer, aim = bidder[~wins], bidder[wins], at[wins], offer[wins], aim[wins]
        out = owner[aim]
        out = out[out >= 0]
        taken[out] = -1
        owner[aim], taken[bidder], price[aim] = bidder, at, offer
        active = np.sort(np.concatenate((losers, out)))
    return taken, owner, price, np.sort(np.concatenate((active, *stalled)))
