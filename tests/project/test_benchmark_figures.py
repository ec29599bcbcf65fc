"""What the benchmarks' page states is what the file of results holds."""

import subprocess
import sys
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "benchmarks"


def test_the_tables_of_the_page_are_those_of_the_results() -> None:
    asked = [sys.executable, str(FOLDER / "scale.py"), "--tables"]
    tables = subprocess.run(asked, check=True, capture_output=True, text=True).stdout
    page = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert tables.count("`python benchmarks/scale.py ") >= 5
    missing = [line for line in tables.splitlines() if line not in page]
    assert missing == [], "put the output of `python benchmarks/scale.py --tables` into benchmarks/README.md"
