"""The one answer among equals: of all best sets of links, the least in the order that `planning.cover` states.

Given prices that prove one set of links best (see `planning.search`), the best sets are exactly those made of *tight*
links, whose cost less their head's price is what their tail is worth, in which only tails worth `none` go
without and only heads of price 0 are left (complementary slackness). From one best set to another leads a round of
exchanges: a tail takes another's head, that one takes a third's, and so on back to the first; on its way the round may
pass through a head that nobody has, and then another head of price 0 is left, or through going without, and then
another tail comes in. So what cannot enter such a round or leave it is put aside first, and then what lies in no
strongly connected group. Inside the groups, which are small, the tails choose in turn, the one worked last first, each
the earliest head that a round of exchanges can give it.
"""

from collections.abc import Iterable, MutableSequence, Sequence

import numpy as np

from lintarsia.planning.groups import strong_groups
from lintarsia.planning.runs import Integers

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
    while True:
        tails, rivals = tail[links], owner[head[links]]
        held = rivals >= 0
        leaves, enters = may_leave.copy(), may_enter.copy()
        leaves[tails] = True
        enters[rivals[held]] = True
        moves = leaves & enters
        keep = moves[tails]
        keep[held] &= moves[rivals[held]]
        if keep.all():
            return links
        links = links[keep]


def settle_ties(
    loose: Iterable[int],
    tails: Sequence[int],
    heads: Sequence[int],
    costs: Sequence[int],
    none: int,
    taken: MutableSequence[int],
    owner: MutableSequence[int],
    price: Sequence[int],
) -> None:
    """Exchange links until the set is the least of the best ones. `loose` are tight links that nobody has taken."""
    for members in _Rounds(loose, tails, heads, costs, none, taken, owner, price).groups():
        members.settle()


class _Rounds:
    """Which links, tails without and heads left are part of some best set, sorted into groups."""

    def __init__(
        self,
        loose: Iterable[int],
        tails: Sequence[int],
        heads: Sequence[int],
        costs: Sequence[int],
        none: int,
        taken: MutableSequence[int],
        owner: MutableSequence[int],
        price: Sequence[int],
    ) -> None:
        self.heads, self.taken, self.owner = heads, taken, owner
        self.options: dict[int, list[int]] = {}
        for link in loose:
            self.options.setdefault(tails[link], []).append(link)
            rival = owner[heads[link]]
            if rival >= 0:
                self.options.setdefault(rival, [])
        self.price, self.none, self.costs = price, none, costs

    def groups(self) -> "list[_Group]":
        heads, taken, owner, price = self.heads, self.taken, self.owner, self.price
        area = self._areas()
        free_of = len(taken)
        without_of = 2 * free_of
        after: dict[int, list[int]] = {}
        may_go: set[int] = set()
        for tail, links in self.options.items():
            free, without = free_of + area[tail], without_of + area[tail]
            places = after[tail] = []
            for link in links:
                rival = owner[heads[link]]
                places.append(rival if rival >= 0 else free)
            own = taken[tail]
            if own < 0:
                after.setdefault(without, []).append(tail)
                may_go.add(tail)
                continue
            left = price[heads[own]]
            if left == 0:
                after.setdefault(free, []).append(tail)
            if self.costs[own] - left == self.none:
                may_go.add(tail)
                places.append(without)
        for places in list(after.values()):
            for place in places:
                after.setdefault(place, [])
        group = strong_groups(after)
        made: dict[int, _Group] = {}
        for tail in sorted(self.options, reverse=True):
            mine = group[tail]
            free, without = free_of + area[tail], without_of + area[tail]
            members = made.get(mine)
            if members is None:
                members = made[mine] = _Group(heads, taken, owner)
            own = taken[tail]
            options = [
                link
                for link in self.options[tail]
                if group[owner[heads[link]] if owner[heads[link]] >= 0 else free] == mine
            ]
            if own >= 0:
                if price[heads[own]] == 0 and group.get(free) == mine:
                    members.may_be_left.add(heads[own])
                options.append(own)
            options.sort()
            members.options[tail] = options
            if tail in may_go and group.get(without) == mine:
                members.may_go.add(tail)
        return [members for members in made.values() if len(members.options) > 1 or members.may_be_left]

    def _areas(self) -> dict[int, int]:
        """A number for each tail, the same wherever loose links and the links taken join two tails."""
        parent = {tail: tail for tail in self.options}

        def find(tail: int) -> int:
            while parent[tail] != tail:
                parent[tail] = tail = parent[parent[tail]]
            return tail

        via: dict[int, int] = {}
        for tail, links in self.options.items():
            for link in links:
                head = self.heads[link]
                rival = self.owner[head]
                other = rival if rival >= 0 else via.setdefault(head, tail)
                parent[find(other)] = find(tail)
        return {tail: find(tail) for tail in self.options}


class _Group:
    """Tails that can reach one another by exchanges, with all the places that best sets give them."""

    def __init__(self, heads: Sequence[int], taken: MutableSequence[int], owner: MutableSequence[int]) -> None:
        self.heads, self.taken, self.owner = heads, taken, owner
        self.options: dict[int, list[int]] = {}  # links by tail, the earliest head first
        self.may_be_left: set[int] = set()
        self.may_go: set[int] = set()

    def settle(self) -> None:
        """Let each tail in turn take the earliest head that it can have."""
        waiting = dict.fromkeys(self.options)  # in order, the last worked first
        for tail in self.options:
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
        for tail, _ in moves:
            if self.taken[tail] >= 0:
                self.owner[self.heads[self.taken[tail]]] = -1
        for tail, link in moves:
            self.taken[tail] = link
            if link >= 0:
                self.owner[self.heads[link]] = tail
