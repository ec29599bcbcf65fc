"""Every glyph of Debian's `unifont` package made into a chart, read back, checked and planned.

    python benchmarks/every_glyph.py [--jobs 2] [--every 1]

Prints how many glyphs there were, how many faults, how long it took; exits with 1 if there was a fault. A fault is a
chart that does not read back as the very same pixels, a count of areas that differs from scipy.ndimage.label's (four
and eight neighbours), a rule that fails, a plan that leaves a run out or works one twice.
"""

import argparse
import sys
import time
from multiprocessing import get_context
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests" / "bringing"))

from glyphs import Bits, faults_of, read_glyphs

from lintarsia.settings import Settings

_SETTINGS = Settings(root=".")


def faults(glyph: tuple[str, Bits]) -> list[str]:
    code, bits = glyph
    try:
        return [f"U+{code}: {fault}" for fault in faults_of(code, bits, _SETTINGS)]
    except Exception as failure:  # a crash is what this script is looking for
        return [f"U+{code}: {type(failure).__name__}: {failure}"]


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--jobs", type=int, default=2)
    options.add_argument("--every", type=int, default=1, help="take only every n-th glyph")
    given = options.parse_args()
    glyphs = read_glyphs()[:: given.every]
    start = time.perf_counter()
    found: list[str] = []
    with get_context("spawn").Pool(given.jobs) as pool:
        for told in pool.imap_unordered(faults, glyphs, chunksize=200):
            found += told
    for line in sorted(found)[:50]:
        print(line)
    print(f"{len(glyphs)} glyphs, {len(found)} faults, {time.perf_counter() - start:.0f} s with {given.jobs} processes")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
