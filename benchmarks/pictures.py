"""Pictures to plan, made from a seed: noise with the spectrum of natural images, cut down to a few colours.

The amplitude of natural images falls as 1/frequency (D. J. Field, J. Opt. Soc. Am. A 4 (1987) 2379–2394); `slope` is
that exponent. Colour differences are weaker than lightness, as in photographs. Nothing is fetched.
"""

import numpy as np

SYMBOLS = "ABCDEFGHIJKLMNOPQRSTUVWX"
BAYER = np.array([[0, 8, 2, 10], [12, 4, 14, 6], [3, 11, 1, 9], [15, 7, 13, 5]]) / 16 - 0.47

# name -> (slope, grain added, ordered dithering)
KINDS = {
    "photograph": (1.0, 0.0, False),
    "soft photograph": (1.5, 0.0, False),
    "poster": (2.0, 0.0, False),
    "grainy photograph": (1.5, 0.3, False),
    "dithered photograph": (1.5, 0.0, True),
}


def picture(kind: str, rows: int, stitches: int, colours: int = 12, seed: int = 1) -> np.ndarray:
    """An array (rows, stitches) of colour numbers."""
    slope, grain, dither = KINDS[kind]
    rng = np.random.default_rng(seed)
    frequency = np.hypot(np.fft.fftfreq(rows)[:, None], np.fft.fftfreq(stitches)[None])
    frequency[0, 0] = 1
    layers = []
    for strength in (1.0, 0.4, 0.4):
        spectrum = np.fft.fft2(rng.standard_normal((rows, stitches))) / frequency**slope
        spectrum[0, 0] = 0
        layer = np.fft.ifft2(spectrum).real
        layers.append(strength * layer / layer.std())
    image = np.stack(layers, axis=-1) + grain * rng.standard_normal((rows, stitches, 3))
    if dither:
        image += 0.8 * np.tile(BAYER, (rows // 4 + 1, stitches // 4 + 1))[:rows, :stitches, None]
    return quantise(image.reshape(-1, 3), colours, rng).reshape(rows, stitches)


def quantise(points: np.ndarray, colours: int, rng: np.random.Generator) -> np.ndarray:
    """The nearest of `colours` centres that suit a sample of the points (k-means, a fixed number of steps)."""
    sample = points[rng.integers(0, len(points), 4000)]
    centres = sample[:colours].copy()
    for _ in range(15):
        nearest = ((sample[:, None] - centres) ** 2).sum(-1).argmin(1)
        for colour in range(colours):
            if (nearest == colour).any():
                centres[colour] = sample[nearest == colour].mean(0)
    return ((points[:, None] - centres) ** 2).sum(-1).argmin(1)


def chart_text(cells: np.ndarray) -> str:
    """The picture as a chart file, worked flat in intarsia with the house limits."""
    used = sorted(set(cells.ravel().tolist()))
    lines = ["lintarsia: 1", "title: A picture from a seed", "worked: flat", "technique: intarsia"]
    lines += ["gauge: {stitches: 22, rows: 30, over: 10 cm}", "colours:"]
    lines += [f'  {SYMBOLS[c]}: {{name: Shade {c + 1}, shade: "#{40 + 16 * c:02x}{200 - 12 * c:02x}80"}}' for c in used]
    lines += ["chart: |"]
    lines += ["  " + "".join(SYMBOLS[c] for c in row) for row in cells.tolist()]
    return "\n".join(lines) + "\n"
