"""The one answer among equals: of all best sets of links, the least in the order that `cover.py` states.

Given prices that prove one set of links best (see `search.py`), the best sets are exactly those made of *tight*
links, whose cost less their head's price is what their tail is worth, in which only tails worth `none` go
without and only heads of price 0 are left (complementary slackness). All of them have equally many
links, which is for the caller's costs to see to. From one best set to another leads a round of
exchanges: a tail takes another's head, that one takes a third's, and so on back to the first; on its way the round may
pass through a head that nobody has, and then another head of price 0 is left, or through going without, and then
another tail comes in. So what cannot enter such a round or leave it is put aside first, and then what lies in no
strongly connected group. Inside the groups, which are small, the tails choose in turn, the one worked last first, each
the earliest head that a round of exchanges can give it.
"""

from collections.abc import MutableSequence, Sequence

import numpy as np

from lintarsia.planning.cover.groups import strong_groups
from lintarsia.planning.runs import Integers

TRIMS = 12  # long dead ends are as well found as groups of one
FREE, WITHOUT = -1, -2  # places besides a tail's head: a head that nobody has; going without


def loose_links(
    tail: Integers, head: Integers, cost: Integers, none: int, taken: Integers, owner: Integers, price: Integers
) -> Integers:
    """The tight links that nobody has taken and that may be part of a round, found for the whole chart at once."""
    has = taken >= 0
    worth = np.full(len(taken), none)
    worth[has] = cost[taken[has]] - price[head[taken[has]]]
    tight = cost - price[head] == worth[tail]
    tight[taken[has]] = False
    links = np.flatnonzero(tight)
    may_leave = has & (worth == none)
    may_enter = ~has
    may_enter[has] = price[head[taken[has]]] == 0
    for _ in range(TRIMS):
        tails, rivals = tail[links], owner[head[links]]
        held = rivals >= 0
        leaves, enters = may_leave.copy(), may_enter.copy()
        leaves[tails] = True
        enters[rivals[held]] = True
        moves = leaves & enters
        keep = moves[tails]
        keep[held] &= moves[rivals[held]]
        if keep.all():
            break
        links = links[keep]
    return links


def areas(tail: Integers, head: Integers, loose: Integers, owner: Integers) -> Integers:
    """A number for each tail, the same for tails joined by loose links, directly or through others."""
    count = len(owner)
    one, other = tail[loose], owner[head[loose]]
    other = np.where(other >= 0, other, count + head[loose])
    label = np.arange(2 * count)
    while True:
        near, far = label[one], label[other]
        if np.array_equal(near, far):
            return label[:count]
        low = np.minimum(near, far)
        np.minimum.at(label, near, low)
        np.minimum.at(label, far, low)
        label = label[label]
        while not np.array_equal(label, label[label]):
            label = label[label]


def settle_ties(
    loose: Sequence[int],
    area: Sequence[int],
    tails: Sequence[int],
    heads: Sequence[int],
    costs: Sequence[int],
    none: int,
    taken: MutableSequence[int],
    owner: MutableSequence[int],
    price: Sequence[int],
) -> None:
    """Exchange links until the set is the least of the best ones.

    `loose` are tight links that nobody has taken, in ascending order; `area` sets tails apart that none of them joins,
    and may be the same for all.
    """
    free_of, without_of = len(taken), 2 * len(taken)  # nodes that stand for "a head that nobody has" and "without"
    after: dict[int, list[int]] = {}
    targets = []
    for link in loose:
        tail, rival = tails[link], owner[heads[link]]
        if rival < 0:
            rival = free_of + area[tail]
        elif rival not in after:
            after[rival] = []
        targets.append(rival)
        after.setdefault(tail, []).append(rival)
    may_be_left: dict[int, int] = {}
    may_go: dict[int, int] = {}
    for tail in list(after):
        if tail >= free_of:
            continue
        own = taken[tail]
        if own < 0:
            may_go[tail] = without = without_of + area[tail]
            after.setdefault(without, []).append(tail)
            continue
        left = price[heads[own]]
        if left == 0:
            may_be_left[tail] = free = free_of + area[tail]
            after.setdefault(free, []).append(tail)
        if costs[own] - left == none:
            may_go[tail] = without = without_of + area[tail]
            after[tail].append(without)
    group = strong_groups(after)
    made: dict[int, _Group] = {}
    for link, rival in zip(loose, targets, strict=True):
        tail = tails[link]
        mine = group[tail]
        if group.get(rival) == mine:
            made.setdefault(mine, _Group(heads, taken, owner)).options.setdefault(tail, []).append(link)
    for tail, mine in group.items():
        if tail < free_of and mine in made:  # also those that can only be pushed out or come in
            made[mine].options.setdefault(tail, [])
    for tail, without in may_go.items():
        if group.get(without) == group[tail] and group[tail] in made:
            made[group[tail]].may_go.add(tail)
    for tail, free in may_be_left.items():
        if group.get(free) == group[tail] and group[tail] in made:
            made[group[tail]].may_be_left.add(heads[taken[tail]])
    for members in made.values():
        members.settle()


class _Group:
    """Tails that can reach one another by exchanges, with all the places that best sets give them."""

    def __init__(self, heads: Sequence[int], taken: MutableSequence[int], owner: MutableSequence[int]) -> None:
        self.heads, self.taken, self.owner = heads, taken, owner
        self.options: dict[int, list[int]] = {}  # links by tail, the earliest head first
        self.may_be_left: set[int] = set()
        self.may_go: set[int] = set()

    def settle(self) -> None:
        """Let each tail in turn take the earliest head that it can have."""
        for tail, links in self.options.items():
            if self.taken[tail] >= 0:
                links.append(self.taken[tail])
                links.sort()
        order = sorted(self.options, reverse=True)
        waiting = dict.fromkeys(order)
        for tail in order:
            del waiting[tail]
            for link in self.options[tail]:
                if link == self.taken[tail] or self._exchange(tail, link, waiting):
                    break

    def _exchange(self, tail: int, wanted: int, waiting: dict[int, None]) -> bool:
        """Give `tail` the link `wanted` by a round through tails still waiting, if there is one."""
        heads, taken, owner = self.heads, self.taken, self.owner
        given_up = heads[taken[tail]] if taken[tail] >= 0 else WITHOUT
        goals = {given_up, FREE} if given_up in self.may_be_left else {given_up}
        place = heads[wanted] if owner[heads[wanted]] >= 0 else FREE
        mover = {place: (tail, wanted)}
        pushed: dict[int, int] = {}  # a tail, and the place that someone else takes from it or that opens for it
        queue = [place]
        for place in queue:
            if place in goals:
                self._move(place, mover, pushed, tail)
                return True
            if place == FREE:
                loose = [t for t in waiting if taken[t] >= 0 and heads[taken[t]] in self.may_be_left]
            elif place == WITHOUT:
                loose = [t for t in waiting if taken[t] < 0]
            else:
                loose = [owner[place]] if owner[place] in waiting else []
            for other in loose:
                if other in pushed:
                    continue
                pushed[other] = place
                for link in self.options[other]:
                    new = heads[link] if owner[heads[link]] >= 0 else FREE
                    if new not in mover:
                        mover[new] = (other, link)
                        queue.append(new)
                if other in self.may_go and WITHOUT not in mover:
                    mover[WITHOUT] = (other, -1)
                    queue.append(WITHOUT)
        return False

    def _move(self, place: int, mover: dict[int, tuple[int, int]], pushed: dict[int, int], start: int) -> None:
        moves = []
        while True:
            tail, link = mover[place]
            moves.append((tail, link))
            if tail == start:
                break
            place = pushed[tail]
        # A head that nobody had is free of charge, so it may be left again by whoever takes it now.
        self.may_be_left |= {self.heads[link] for _, link in moves if link >= 0 and self.owner[self.heads[link]] < 0}
        for tail, _ in moves:
            if self.taken[tail] >= 0:
                self.owner[self.heads[self.taken[tail]]] = -1
        for tail, link in moves:
            self.taken[tail] = link
            if link >= 0:
                self.owner[self.heads[link]] = tail
