"""The pictures that row_slips.py plants slips in, or finds none in."""

import math
import random

import check_speed
import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

UNIFONT = "/usr/share/unifont/unifont.hex"
Picture = NDArray[np.int16]


def drawn(number: int, seed: int) -> list[Picture]:
    """Motifs of 18 to 50 stitches and 20 to 60 rows."""
    rng = random.Random(seed)
    made = [motif(rng) for _ in range(number)]
    return [picture for picture in made if picture.max() > 0]


def motif(rng: random.Random, fine: int = 8) -> Picture:
    width, height = rng.randint(18, 50), rng.randint(20, 60)
    image = Image.new("L", (width * fine, height * fine), 0)
    pen = ImageDraw.Draw(image)
    for colour in range(1, rng.randint(2, 5)):
        x, y = (rng.uniform(0.1, 0.9) * size * fine for size in (width, height))
        a, b = (rng.uniform(0.1, 0.45) * size * fine for size in (width, height))
        shape = rng.random()
        if shape < 0.4:
            pen.ellipse((x - a, y - b, x + a, y + b), fill=colour * 60)
        elif shape < 0.8:
            corners = rng.randint(3, 7)
            turn = [math.tau * i / corners + 0.3 for i in range(corners)]
            pen.polygon(
                [(x + a * rng.uniform(0.4, 1) * math.cos(t), y + b * rng.uniform(0.4, 1) * math.sin(t)) for t in turn],
                fill=colour * 60,
            )
        else:
            end = (x - a, y - b, x + a * rng.uniform(-1, 1), y + b)
            pen.line(end, fill=colour * 60, width=int(fine * rng.uniform(1, 3)))
    shades = np.asarray(image)[fine // 2 :: fine, fine // 2 :: fine]
    codes = np.unique(shades, return_inverse=True)[1].reshape(height, width)
    return codes[::-1].astype(np.int16)


def glyphs(number: int, seed: int) -> list[Picture]:
    with open(UNIFONT, encoding="ascii") as lines:
        codes = [line.strip().split(":")[1] for line in lines]
    made = []
    for code in random.Random(seed).sample(codes, number):
        bits = np.array([int(bit) for bit in bin(int("1" + code, 16))[3:]], np.int16)
        made.append(bits.reshape(16, -1)[::-1])
    return [picture for picture in made if picture.any()]


def digits(first: int, every: int) -> list[Picture]:
    from sklearn.datasets import load_digits

    return [d[::-1].astype(np.int16) for d in np.digitize(load_digits().images, (5, 11))[first::every]]


def blocks(number: int, seed: int) -> list[Picture]:
    rng = random.Random(seed)
    made = (check_speed.picture(rng) for _ in range(number))
    return [np.array([["BWR".index(symbol) for symbol in row] for row in rows[::-1]], np.int16) for rows in made]


def bands(number: int, seed: int) -> list[Picture]:
    """Rows of small repeats, plain ones between some, as stranded yokes have them."""
    rng = random.Random(seed)
    return [_bands(rng, rng.choice((24, 32, 36, 40, 48)), rng.randint(16, 44)) for _ in range(number)]


def _bands(rng: random.Random, width: int, height: int) -> Picture:
    rows: list[Picture] = []
    while len(rows) < height:
        repeat, high = (
            rng.choice([step for step in (2, 3, 4, 6, 8, 12) if width % step == 0]),
            rng.choice((1, 2, 3, 5, 7, 9)),
        )
        low = _lozenge(rng, repeat, high) if rng.random() < 0.6 else _chance(rng, repeat, high)
        if rng.random() < 0.7:
            low = low | low[:, ::-1]
        front, ground = rng.sample(range(rng.choice((2, 2, 3))), 2)
        whole = np.vstack([low, low[: high // 2][::-1]])
        rows += list(np.tile(np.where(whole, front, ground), width // repeat))
        rows += [np.full(width, rng.choice((0, ground)))] * rng.choice((0, 1, 1, 2, 3))
    return np.array(rows[:height], np.int16)


def _lozenge(rng: random.Random, repeat: int, high: int) -> NDArray[np.bool_]:
    far = np.abs(np.arange(repeat) - repeat // 2) + np.abs(np.arange((high + 1) // 2) - high // 2)[:, None]
    return far <= repeat // 2 - rng.choice((0, 1))


def _chance(rng: random.Random, repeat: int, high: int) -> NDArray[np.bool_]:
    return np.array([[rng.random() < 0.45 for _ in range(repeat)] for _ in range((high + 1) // 2)])


def strewn(pictures: list[Picture], seed: int) -> list[Picture]:
    """With single stitches of any colour, or of one more, in 1 to 20 of 100 places."""
    rng, made = random.Random(seed), []
    for picture in pictures:
        other, most = picture.copy(), int(picture.max()) + rng.choice((0, 1))
        for _ in range(int(picture.size * rng.choice((0.01, 0.03, 0.08, 0.2)))):
            other[rng.randrange(len(other)), rng.randrange(other.shape[1])] = rng.randint(0, most)
        made.append(other)
    return made


def ragged(pictures: list[Picture], seed: int) -> list[Picture]:
    """As fur and grass are drawn: half of all edges a stitch further to the right, of the others some to the left."""
    rng, made = random.Random(seed), []
    for picture in pictures:
        other = picture.copy()
        for row, stitch in np.argwhere(picture[:, 1:] != picture[:, :-1]).tolist():
            if rng.random() < 0.5:
                other[row, stitch + 1] = picture[row, stitch]
            elif rng.random() < 0.3:
                other[row, stitch] = picture[row, stitch + 1]
        made.append(other)
    return made


def corpora(seed: int, size: int) -> dict[str, list[Picture]]:
    """In which slips are planted."""
    return {
        "drawn motifs": drawn(size, seed),
        "Unifont's glyphs": glyphs(2 * size, seed),
        "handwritten digits": digits(seed % 7, max(1, 1797 // (2 * size))),
        "blocks with wandering edges": blocks(2 * size, seed),
    }
