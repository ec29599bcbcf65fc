"""Untangling: the best set of links where several runs could go on to several others. Exact, in whole numbers.

A set of links is a matching between runs as tails and runs as heads. `untangle` finds the one with most links, then
least cost, then the least in the order that `lintarsia.planning.cover` states. It is the successive shortest path
method (J. Edmonds and R. M. Karp, J. ACM 19 (1972) 248–264) with prices on the heads that keep every reduced cost from
falling under zero; a tail that finds no head takes "none" at a price above all possible savings.
"""

from collections.abc import Mapping, Sequence
from heapq import heappop, heappush

Choices = Mapping[int, Sequence[tuple[int, int]]]  # tail -> (head, cost), heads ascending
NONE = -1


def untangle(choices: Choices) -> dict[int, int]:
    """The best links as {tail: head}; tails that end are left out. Costs are whole numbers from 0 up."""
    none = 1 + sum(max(cost for _, cost in options) for options in choices.values() if options)
    owner: dict[int, int] = {}
    price: dict[int, int] = {}
    link: dict[int, int] = {}
    paid: dict[int, int] = {}
    for tail in sorted(choices, reverse=True):
        _add(tail, choices, none, owner, price, link, paid)
    return _settle_ties(choices, none, owner, price, link, paid)


def _add(
    start: int,
    choices: Choices,
    none: int,
    owner: dict[int, int],
    price: dict[int, int],
    link: dict[int, int],
    paid: dict[int, int],
) -> None:
    """Give one more tail a head by the cheapest chain of changes, or leave the dearest one out."""
    reached: dict[int, int] = {}
    source: dict[int, int] = {}
    done: list[int] = []
    heap: list[tuple[int, int]] = []
    tail, base = start, 0
    stop, stop_tail, stop_head = none, start, NONE
    while True:
        for head, cost in choices[tail]:
            distance = base + cost - price.get(head, 0)
            if distance < stop and distance < reached.get(head, stop):
                reached[head] = distance
                source[head] = tail
                if head in owner:
                    heappush(heap, (distance, head))
                else:
                    stop, stop_tail, stop_head = distance, tail, head
        while heap and reached[heap[0][1]] < heap[0][0]:
            heappop(heap)
        if not heap or heap[0][0] >= stop:
            break
        distance, head = heappop(heap)
        done.append(head)
        tail = owner[head]
        base = distance - (paid[tail] - price.get(head, 0))
        if base + none < stop:
            stop, stop_tail, stop_head = base + none, tail, NONE
    for head in done:
        price[head] = price.get(head, 0) + reached[head] - stop
    tail, head = stop_tail, stop_head
    while True:
        before = link.pop(tail, NONE)
        if head != NONE:
            link[tail] = head
            owner[head] = tail
            paid[tail] = next(cost for other, cost in choices[tail] if other == head)
        if tail == start:
            return
        head = before
        tail = source[head]


def _settle_ties(
    choices: Choices,
    none: int,
    owner: dict[int, int],
    price: dict[int, int],
    link: dict[int, int],
    paid: dict[int, int],
) -> dict[int, int]:
    """Of all optimal matchings the least. They are those made of tight links, that is, of reduced cost zero."""
    worth = {tail: paid[tail] - price.get(link[tail], 0) if tail in link else none for tail in choices}
    tight = {
        tail: [head for head, cost in options if cost - price.get(head, 0) == worth[tail]]
        for tail, options in choices.items()
    }
    settled: set[int] = set()
    for tail in sorted(choices, reverse=True):
        settled.add(tail)
        for head in tight[tail]:
            if link.get(tail, NONE) == head:
                break
            if owner.get(head, NONE) in settled:
                continue
            chain = _exchange(tail, head, tight, settled, owner, price, link, worth, none)
            if chain:
                old = [link.pop(t, NONE) for t, _ in chain]
                for h in old:
                    owner.pop(h, None)
                for t, h in chain:
                    if h != NONE:
                        link[t] = h
                        owner[h] = t
                break
    return link


def _exchange(
    start: int,
    wanted: int,
    tight: Mapping[int, list[int]],
    settled: set[int],
    owner: dict[int, int],
    price: dict[int, int],
    link: dict[int, int],
    worth: dict[int, int],
    none: int,
) -> list[tuple[int, int]]:
    """A chain of changes of no cost in which `start` gets `wanted`: (tail, its new head) each; empty if there is none.

    NONE stands for "left without": a tail may go without if that costs it nothing more, a head if its price is zero.
    Passing through NONE, one such change makes good the other.
    """
    goal = link.get(start, NONE)
    goals = {goal, NONE} if goal != NONE and price.get(goal, 0) == 0 else {goal}
    source: dict[int, int] = {wanted: start}  # head (or NONE) -> tail that takes it
    queue = [wanted if wanted in owner else NONE]
    if queue[0] == NONE:
        source[NONE] = start
    seen = {queue[0]}
    free_head = wanted
    via: dict[int, int] = {}
    for head in queue:
        if head in goals:
            break
        if head == NONE:
            givers = [t for t in tight if t not in settled and (t not in link or price.get(link[t], 0) == 0)]
        else:
            givers = [owner[head]]
        for tail in givers:
            if tail in settled or tail in via:
                continue
            via[tail] = head
            options = list(tight[tail]) + ([NONE] if worth[tail] == none else [])
            for new in options:
                node = new if new in owner else NONE
                if node in seen or (node == NONE and tail not in link):
                    continue
                if node != NONE and owner[node] in settled and node != goal:
                    continue
                seen.add(node)
                source[node] = tail
                if node == NONE:
                    free_head = new
                queue.append(node)
    else:
        return []
    chain = []
    node = head
    while True:
        tail = source[node]
        chain.append((tail, free_head if node == NONE else node))
        if tail == start:
            return chain
        node = via[tail]
