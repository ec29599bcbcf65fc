"""What gathers the words is no part of the package: it lies with what makes the documentation."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "docs" / "making"))
