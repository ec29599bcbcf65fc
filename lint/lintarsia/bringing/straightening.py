"""How far a scan of squared paper is askew, and the same scan turned straight; the light that falls unevenly on it.

A straight grid's lines gather in few columns of pixels, so that change from pixel to pixel is a comb; askew, it smears.
The angle is the one at which the picture's bands, each shifted by what it would lean, make the sharpest comb. A sheet
that leans too far to be turned has a lesser comb at some angle within reach too: so what seems to lean at all is looked
at further out.
"""

import numpy as np

from lintarsia.bringing.arrays import Bytes, Floats

# House values, found on grids made by script.
MOST_ASKEW, STEP = 3.0, 0.1  # degrees
LOOKED_AT = 15.0  # degrees
LEAST_ASKEW = 0.3  # degrees; over a sheet of 40 cells that is a fifth of a cell
BANDS = 32
SHARPER = 1.1  # times the comb of the picture as it stands
SURELY_A_SHEET = 3.0  # likewise; squared paper has six times and more, at the angle at which it leans
FEWEST, SMALLEST = 4, 4  # cells along an axis, pixels of a cell
LEAST_SHADOW = 0.15  # share by which the light differs from edge to edge


def straight(colours: Bytes) -> tuple[Bytes, float]:
    """The picture, shape (height, width, 4), turned straight, and how many degrees it was askew; 0 where it was not.

    Of one that is `too_askew` the angle is chance.
    """
    angle = _askew(colours[:, :, :3].mean(axis=2, dtype=np.float32))
    if not angle:
        return colours, 0.0
    from PIL import Image

    edge = np.concatenate([colours[0], colours[-1], colours[:, 0], colours[:, -1]])
    paper = tuple(int(level) for level in np.median(edge, axis=0))
    turned = Image.fromarray(colours).rotate(angle, Image.Resampling.BICUBIC, fillcolor=paper)
    return np.asarray(turned, np.uint8), abs(angle)


def _askew(light: Floats) -> float:
    """By how many degrees, anticlockwise, the picture has to be turned; 0 where that makes no sharper comb."""
    angles = np.arange(-MOST_ASKEW, MOST_ASKEW + STEP / 2, STEP)
    sharp = _both_ways(light, angles)
    best = int(sharp.argmax())
    as_it_stands = float(sharp[len(angles) // 2])
    if abs(angles[best]) < LEAST_ASKEW or sharp[best] <= SHARPER * as_it_stands:
        return 0.0
    near = angles[best] + np.linspace(-STEP, STEP, 21)
    return float(near[_both_ways(light, near).argmax()])


def too_askew(colours: Bytes) -> bool:
    """Whether the picture, shape (height, width, 4), is a sheet that leans further than any is turned."""
    light = colours[:, :, :3].mean(axis=2, dtype=np.float32)
    within = np.arange(-MOST_ASKEW, MOST_ASKEW + STEP / 2, STEP)
    further = np.arange(MOST_ASKEW + STEP, LOOKED_AT, STEP)
    sharp, beyond = _both_ways(light, within), _both_ways(light, np.concatenate([-further, further])).max()
    return bool(beyond > max(sharp.max(), SURELY_A_SHEET * sharp[len(within) // 2]))


def _both_ways(light: Floats, angles: Floats) -> Floats:
    return _combs(light, angles) + _combs(light.T, -angles)


def _combs(light: Floats, angles: Floats) -> Floats:
    """How sharp the comb of changes across the picture is at each angle."""
    height, width = light.shape
    if width < FEWEST * SMALLEST or height < BANDS:
        return np.zeros(len(angles))
    bands = [np.abs(np.diff(band, axis=1)).mean(axis=0) for band in np.array_split(light, BANDS)]
    middles = (np.arange(BANDS) + 0.5) * height / BANDS - height / 2
    places = np.arange(width - 1)
    found = []
    for lean in np.tan(np.radians(angles)):
        comb = sum(np.interp(places - lean * y, places, band) for y, band in zip(middles, bands, strict=True))
        comb = comb - comb.mean()
        strength = np.abs(np.fft.rfft(comb))[FEWEST : width // SMALLEST]
        found.append(float(strength.max(initial=0)) / width)
    return np.array(found)


def evened(colours: Bytes) -> tuple[Bytes, float]:
    """The stitches, shape (rows, stitches, 3), as in even light, and the share by which the light differed from edge to
    edge; 0 where it did not.

    Most neighbours in a chart have one colour: what they differ by as a rule, along rows and along columns, is light.
    """
    light = np.log(np.maximum(colours.mean(axis=2), 1.0))
    across, down = (float(np.median(np.diff(light, axis=axis))) if light.shape[axis] > 1 else 0.0 for axis in (1, 0))
    rows, columns = light.shape
    share = 1 - float(np.exp(-abs(across) * (columns - 1) - abs(down) * (rows - 1)))
    if share < LEAST_SHADOW:
        return colours, 0.0
    y, x = np.mgrid[:rows, :columns]
    shadow = np.exp(across * (x - (columns - 1) / 2) + down * (y - (rows - 1) / 2))
    return np.rint(colours / shadow[:, :, None]).clip(0, 255).astype(np.uint8), share
