"""Strongly connected groups of a directed graph."""

from collections.abc import Mapping, Sequence


def strong_groups(after: Mapping[int, Sequence[int]]) -> dict[int, int]:
    """The group of every node, as a number; two nodes share one when each can be reached from the other.

    `after` lists where the arcs from each node lead; a node from which none leads may be missing. R. Tarjan, SIAM
    J. Computing 1 (1972) 146–160, with its own stack, since a chart's chains are longer than Python may recurse.
    """
    group: dict[int, int] = {}
    index: dict[int, int] = {}
    low: dict[int, int] = {}
    trail: list[int] = []
    for root in after:
        if root in index:
            continue
        index[root] = low[root] = len(index)
        trail.append(root)
        work = [(root, iter(after[root]))]
        while work:
            node, arcs = work[-1]
            for other in arcs:
                if other not in index:
                    index[other] = low[other] = len(index)
                    trail.append(other)
                    work.append((other, iter(after.get(other, ()))))
                    break
                if other not in group and index[other] < low[node]:
                    low[node] = index[other]
            else:
                work.pop()
                if work and low[node] < low[work[-1][0]]:
                    low[work[-1][0]] = low[node]
                if low[node] == index[node]:
                    while True:
                        member = trail.pop()
                        group[member] = index[node]
                        if member == node:
                            break
    return group
