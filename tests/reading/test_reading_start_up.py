"""What importing the reader, and reading a good chart, may load."""

import subprocess
import sys

from reading_charts import PLAIN

HEAVY = ["jsonschema", "referencing", "scipy", "coloraide", "mkdocs", "click", "importlib.resources"]


def loaded(code: str) -> list[str]:
    script = f"import sys\n{code}\nprint([m for m in {HEAVY!r} if m in sys.modules])"
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return [name.strip("'") for name in run.stdout.strip()[1:-1].split(", ") if name]


def test_importing_the_reader_is_light() -> None:
    assert loaded("import lintarsia.reading\nassert 'jsonschema_rs' not in sys.modules") == []


def test_reading_a_good_chart_is_light() -> None:
    assert (
        loaded(f"from lintarsia.reading import read_chart\nassert not read_chart('x', {PLAIN.encode()!r}).problems")
        == []
    )


def test_only_a_fault_needs_the_reference_validator() -> None:
    bad = PLAIN.replace("22", "many").encode()
    assert "jsonschema" in loaded(f"from lintarsia.reading import read_chart\nassert read_chart('x', {bad!r}).problems")
