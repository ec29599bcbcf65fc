"""What one process hands to another, or to a file: small while it waits, however many results it has."""

import pickle
import zlib
from typing import Any

PAYS_FROM = 2**16  # bytes; results repeat the same words, and shrink to a tenth in the time of writing them


def packed(what: object) -> bytes:
    """Anything that can be pickled."""
    data = pickle.dumps(what, pickle.HIGHEST_PROTOCOL)
    return b"z" + zlib.compress(data, zlib.Z_BEST_SPEED) if len(data) >= PAYS_FROM else b"p" + data


def unpacked(data: bytes) -> Any:
    """What `packed` was given; for what this run itself has packed, and nothing else."""
    return pickle.loads(zlib.decompress(memoryview(data)[1:]) if data[:1] == b"z" else memoryview(data)[1:])
