"""What arrays of pixels, places and numbers are called in this room."""

import numpy as np
from numpy.typing import NDArray

Bytes = NDArray[np.uint8]
Index = NDArray[np.intp]
Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]
