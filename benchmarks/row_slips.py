"""How often a slip planted in one row is found, and how often an honest row is taken for one.

    python benchmarks/row_slips.py            # what docs/row-slips.md says
    python benchmarks/row_slips.py --confidence   # how often an alarm is right, by its strength
    python benchmarks/row_slips.py --fit      # the weights of rules/shared/row_fits.py and the limit of slips.py

Corpora: motifs drawn here by random numbers, with ellipses, polygons and lines in up to four colours; glyphs of GNU
Unifont (Debian package unifont); scikit-learn's digits, cut to three shades; for false alarms alone the blocks of
check_speed.py, whose two edges wander together from row to row as a row that slipped does. Those that are fitted to
and those that are measured are different ones.
"""

import argparse
import math
import random
from collections.abc import Iterator
from typing import NamedTuple

import check_speed
import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from lintarsia.rules.shared import slips
from lintarsia.rules.shared.row_fits import FACTS, WEIGHTS

UNIFONT = "/usr/share/unifont/unifont.hex"
KINDS = ("swapped", "mirrored", "shifted")
ROWS_A_FALSE_ALARM = 200
EVERY = -50.0  # no score is so low
BANDS = (slips.DOUBTFUL.apart, slips.ENOUGH.apart, slips.SURE, 6.0)  # by how much a guess stands out
Picture = NDArray[np.int16]


class Planted(NamedTuple):
    picture: Picture
    kind: str
    row: int  # from 0


def drawn(number: int, seed: int) -> list[Picture]:
    """Motifs of 18 to 50 stitches and 20 to 60 rows."""
    rng = random.Random(seed)
    made = [_motif(rng) for _ in range(number)]
    return [picture for picture in made if picture.max() > 0]


def _motif(rng: random.Random, fine: int = 8) -> Picture:
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


def plant(picture: Picture, kind: str, rng: random.Random) -> Planted | None:
    """One slip in a row chosen at random; None where it changes nothing."""
    row, made = rng.randrange(len(picture) - 1), picture.copy()
    if kind == "swapped":
        made[[row, row + 1]] = picture[[row + 1, row]]
    elif kind == "mirrored":
        made[row] = picture[row][::-1]
    else:
        made[row] = slips.moved(picture[row], rng.choice([-2, -1, 1, 2]))
    return None if np.array_equal(made, picture) else Planted(made, kind, row)


def planted(pictures: list[Picture], times: int, seed: int) -> Iterator[Planted]:
    rng = random.Random(seed)
    for picture in pictures:
        for kind in KINDS:
            yield from filter(None, (plant(picture, kind, rng) for _ in range(times)))


def blocks(number: int, seed: int) -> list[Picture]:
    rng = random.Random(seed)
    made = (check_speed.picture(rng) for _ in range(number))
    return [np.array([["BWR".index(symbol) for symbol in row] for row in rows[::-1]], np.int16) for rows in made]


def found(case: Planted, bar: slips.Bar = slips.ENOUGH) -> bool:
    """Whether the slip is found where it is. A row between two alike may be the one that was exchanged, so the row
    beside it counts; what it is taken for does not have to be what it was."""
    slip = slips.find_slip(case.picture, bar)
    return slip is not None and abs(slip.row - 1 - case.row) <= 1


def named(case: Planted, bar: slips.Bar = slips.ENOUGH) -> bool:
    slip = slips.find_slip(case.picture, bar)
    return slip is not None and slip.kind == case.kind and slip.row - 1 == case.row


def corpora(seed: int, size: int) -> dict[str, list[Picture]]:
    return {
        "drawn motifs": drawn(size, seed),
        "Unifont's glyphs": glyphs(2 * size, seed),
        "handwritten digits": digits(seed % 7, max(1, 1797 // (2 * size))),
    }


def measure(seed: int, size: int) -> None:
    """What is told unasked, and with the rule's option `doubtful`."""
    pictures = corpora(seed, size)
    for bar, how in ((slips.ENOUGH, "unasked"), (slips.DOUBTFUL, "with doubtful: true")):
        print(f"{how}:")
        for name, corpus in pictures.items():
            _alarms(name, corpus, bar)
            _hits(list(planted(corpus, 1, seed)), bar)
        _alarms("blocks with wandering edges", blocks(2 * size, seed), bar)


def _alarms(name: str, pictures: list[Picture], bar: slips.Bar) -> None:
    rows = sum(map(len, pictures))
    alarms = [slip for picture in pictures if (slip := slips.find_slip(picture, bar)) is not None]
    warned = sum(slip.score >= slips.SURE for slip in alarms)
    print(
        f"{name}: {len(pictures)} pictures, {rows} honest rows, {len(alarms)} false alarms, {warned} of them warnings"
    )


def _hits(cases: list[Planted], bar: slips.Bar) -> None:
    for kind in KINDS:
        of_kind = [case for case in cases if case.kind == kind]
        hits, names = (sum(test(case, bar) for case in of_kind) for test in (found, named))
        share = hits / max(1, len(of_kind))
        print(f"  {kind}: {hits} of {len(of_kind)} found ({share:.0%}), {names} by their own name")


def confidence(seed: int, size: int) -> None:
    """Of drawn motifs, half of them honest and half with one slip: how many alarms of each strength are right."""
    alarms: dict[float, list[bool]] = {}
    rng = random.Random(seed)
    for picture in drawn(4 * size, seed):
        case = plant(picture, rng.choice(KINDS), rng)
        for made, row in ((picture, None), (case.picture, case.row) if case else (picture, None)):
            slip = slips.find_slip(made, slips.DOUBTFUL)
            if slip is not None:
                right = row is not None and abs(slip.row - 1 - row) <= 1
                alarms.setdefault(max(band for band in BANDS if slip.score >= band), []).append(right)
    for strength, rights in sorted(alarms.items()):
        print(
            f"{strength} and more apart, below the next: {sum(rights)} of {len(rights)} right ({np.mean(rights):.0%})"
        )


def fit(seed: int, size: int) -> None:
    """Logistic regression: the planted changes against all others, of drawn motifs; honest pictures of all corpora."""
    from sklearn.linear_model import LogisticRegression

    slips.BUSIEST, slips.TRIED = 1.0, 99  # type: ignore[misc]
    names = FACTS
    rows, hits = [], []
    rng = random.Random(seed)
    pictures = corpora(seed, size)
    for case in planted(pictures["drawn motifs"], 2, seed):
        for slip, fits in slips.candidates(case.picture, EVERY):
            hit = slip.kind == case.kind and slip.row - 1 == case.row
            if hit or rng.random() < 0.1:
                rows.append([getattr(fits, name) for name in names])
                hits.append(hit)
    for corpus in pictures.values():
        for picture in corpus:
            for _, fits in slips.candidates(picture, EVERY):
                rows.append([getattr(fits, name) for name in names])
                hits.append(False)
    model = LogisticRegression(max_iter=5000).fit(np.array(rows), np.array(hits))
    weights = dict(zip(names, model.coef_[0].round(2).tolist(), strict=True)) | {"base": round(model.intercept_[0], 2)}
    print("WEIGHTS =", weights)
    WEIGHTS.update(weights)
    limits = []
    for name, corpus in pictures.items():
        best = sorted(
            (max((f.score for _, f in slips.candidates(p, EVERY)), default=-99) for p in corpus), reverse=True
        )
        allowed = sum(map(len, corpus)) // ROWS_A_FALSE_ALARM
        limits.append(best[min(allowed, len(best) - 1)])
        print(name, "limit", round(limits[-1], 2))
    print("DOUBTFUL =", round(max(limits), 2))


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--fit", action="store_true")
    parser.add_argument("--size", type=int, default=100)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--confidence", action="store_true")
    given = parser.parse_args()
    if given.fit:
        fit(3, given.size)
    elif given.confidence:
        confidence(given.seed, given.size)
    else:
        measure(given.seed, given.size)
