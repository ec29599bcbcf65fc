"""A pen that draws lines one stitch wide into a grid."""

import random
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Picture = NDArray[np.uint8]


class Box(NamedTuple):
    """Rows from `top` to `foot` and columns from `left` to `right`, all inside."""

    top: int
    left: int
    foot: int
    right: int

    @property
    def height(self) -> int:
        return self.foot - self.top

    @property
    def width(self) -> int:
        return self.right - self.left

    @property
    def middle(self) -> int:
        return (self.left + self.right) // 2

    @property
    def waist(self) -> int:
        return (self.top + self.foot) // 2


class Pen:
    """Draws lines one stitch wide; what lies beyond the picture is left out."""

    def __init__(self, height: int, width: int, dice: random.Random) -> None:
        self.made: Picture = np.zeros((height, width), np.uint8)
        self.dice = dice

    def line(self, row: int, column: int, end: int, end_column: int) -> None:
        steps = max(abs(end - row), abs(end_column - column), 1)
        for at in range(steps + 1):
            self.dot(round(row + (end - row) * at / steps), round(column + (end_column - column) * at / steps))

    def dot(self, row: int, column: int) -> None:
        if 0 <= row < self.made.shape[0] and 0 <= column < self.made.shape[1]:
            self.made[row, column] = 1

    def path(self, *points: tuple[int, int]) -> None:
        for a, b in pairwise(points):
            self.line(*a, *b)

    def bowl(self, box: Box, cut: int, sides: str) -> None:
        """An oval of upright and level lines, its corners `cut` off."""
        cut = min(cut, box.height // 2, box.width // 2)
        self.line(box.top, box.left + cut, box.top, box.right - cut)
        if sides != "top":
            self.line(box.foot, box.left + cut, box.foot, box.right - cut)
        if sides != "right":
            self.line(box.top + cut, box.left, box.foot - cut, box.left)
        if sides != "left":
            self.line(box.top + cut, box.right, box.foot - cut, box.right)
        if cut > 1:
            for row in (box.top + 1, box.foot - 1):
                self.dot(row, box.left + 1)
                self.dot(row, box.right - 1)

    def maybe(self, chance: float) -> bool:
        return self.dice.random() < chance

    def among(self, first: int, last: int) -> int:
        return self.dice.randint(min(first, last), max(first, last))
