"""Our own frozen values and Python's JSON, against msgspec's structs and encoder, in one process.

    pip install msgspec    (no dependency of ours; without it, the other rows are printed alone)
    python benchmarks/values_speed.py

Values: the class `Result` (15 fields, nine of them with defaults) defined anew, made, read and hashed, as the standard
library's frozen dataclass, as ours (`ground/values.py`), as a NamedTuple and as a frozen msgspec struct. JSON: the plan
of a photograph and a report of many results, as we write them (a line for each supply, row and result; `report/1` with
indents), and the same values through msgspec. Best of several turns, in microseconds or milliseconds of the processor;
read the ratios.
"""

import json
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import MISSING, Field, fields
from dataclasses import dataclass as standard
from pathlib import Path
from typing import Any, NamedTuple

sys.path.insert(0, str(Path(__file__).parent))

from pictures import chart_text, picture

from lintarsia.ground.values import dataclass as ours
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.json import plan_document, plan_json
from lintarsia.reading import read_chart
from lintarsia.reporting.json import pieces, result_line
from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Level, Region, Report, Result

TURNS = 7
FIELDS = fields(Result)
VALUES = ("float/too-long", "too-long", Level.WARNING, "a message of the usual length, of some sixty letters", "a.yaml")
MORE = (*VALUES, Region(12, 3, 12, 9), 12, (3, 9))


def best(work: Callable[[], object], times: int = 1) -> float:
    """Seconds of the processor that `work` takes once, done `times` over in each turn."""
    least = float("inf")
    for _ in range(TURNS):
        start = time.process_time()
        for _ in range(times):
            work()
        least = min(least, time.process_time() - start)
    return least / times


def _default(field: "Field[Any]") -> Any:
    return field.default


def _namespace() -> dict[str, Any]:
    space: dict[str, Any] = {"__annotations__": {field.name: field.type for field in FIELDS}, "__module__": __name__}
    space |= {field.name: _default(field) for field in FIELDS if field.default is not MISSING}
    return space


def by_standard() -> type[Any]:
    return standard(frozen=True, slots=True)(type("Made", (), _namespace()))


def by_ours() -> type[Any]:
    return ours(frozen=True, slots=True)(type("Made", (), _namespace()))


def by_named_tuple() -> type[Any]:
    made: type[Any] = NamedTuple("Made", [(field.name, field.type) for field in FIELDS])  # type: ignore[misc]
    made.__new__.__defaults__ = tuple(_default(field) for field in FIELDS if field.default is not MISSING)
    return made


def by_msgspec() -> type[Any]:
    import msgspec

    said = [(f.name, Any) if f.default is MISSING else (f.name, Any, f.default) for f in FIELDS]
    return msgspec.defstruct("Made", said, frozen=True)


def values(ways: dict[str, Callable[[], type[Any]]]) -> None:
    print(f"{'':22}{'define':>10}{'make':>10}{'read':>10}{'hash':>10}   microseconds")
    for name, way in ways.items():
        print(f"{name:22}" + "".join(f"{seconds * 1e6:10.2f}" for seconds in _told(way)))


def _told(way: Callable[[], type[Any]]) -> list[float]:
    made = way()
    one = made(*MORE)
    told = [best(way, 40), best(lambda: made(*MORE), 20_000), best(lambda: one.row, 50_000)]
    return [*told, best(lambda: hash(one), 20_000)]


DEFINED = """
import sys
from lintarsia.ground import values
own, defined = values.dataclass, []
def counting(**how):
    wrap = own(**how)
    return lambda plain: defined.append(plain) or wrap(plain)
values.dataclass = counting
from lintarsia.cli.main import main
main(["check", sys.argv[1]])
print(len(defined), file=sys.stderr)
"""


def defined() -> int:
    """How many frozen values a cold check defines."""
    chart = Path(__file__).parents[1] / "examples" / "orchard-bag.chart.yaml"
    done = subprocess.run([sys.executable, "-c", DEFINED, str(chart)], capture_output=True, text=True, check=True)
    return int(done.stderr.split()[-1])


def report_of(number: int) -> Report:
    """A report of so many results, each a little different."""
    results = tuple(
        Result(*VALUES[:4], f"charts/{i % 50}.chart.yaml", Region(i, 3, i, 9), i, (3, 9), fingerprint=f"{i:016x}")
        for i in range(1, number + 1)
    )
    return Report(50, results)


def texts(encode: Callable[[Any], bytes] | None, indent: Callable[[bytes], bytes] | None) -> None:
    text = chart_text(picture("photograph", 300, 400))
    chart = read_chart("photograph.chart.yaml", text.encode()).chart
    assert chart is not None
    plan, report = make_plan(chart), report_of(5000)
    _ = plan.rows, plan.supplies, plan.ends
    document, results = plan_document(chart, plan), json.loads("".join(pieces(report, PLAIN)))
    ways: dict[str, Callable[[], object]] = {
        "plan, values gathered": lambda: plan_document(chart, plan),
        "plan, as we write it": lambda: plan_json(chart, plan, allowance=0.1, tail_mm=150.0),
        "plan, json compact": lambda: json.dumps(document, ensure_ascii=False),
        "report, as we write it": lambda: "".join(pieces(report, PLAIN)),
        "report, a line each": lambda: [result_line(result) for result in report.results],
    }
    if encode and indent:
        ways["plan, msgspec compact"] = lambda: encode(document)
        ways["report, msgspec indent"] = lambda: indent(encode(results))
        ways["report, msgspec compact"] = lambda: encode(results)
    print(f"\n{'':26}{'ms':>10}{'kB':>10}")
    for name, way in ways.items():
        made = way()
        size = len(made) / 1000 if isinstance(made, str | bytes) else 0
        print(f"{name:26}{best(way) * 1000:10.1f}{size:10,.0f}")


def main() -> None:
    ways: dict[str, Callable[[], type[Any]]] = {
        "standard dataclass": by_standard,
        "ground/values.py": by_ours,
        "NamedTuple": by_named_tuple,
    }
    print(f"a cold check defines {defined()} frozen values")
    try:
        start = time.process_time()
        import msgspec
    except ModuleNotFoundError:
        print("msgspec is not installed: its rows are left out\n")
        values(ways)
        texts(None, None)
        return
    print(f"msgspec {msgspec.__version__}: imported in {(time.process_time() - start) * 1000:.1f} ms\n")
    values({**ways, "msgspec.Struct": by_msgspec})
    texts(msgspec.json.encode, lambda made: msgspec.json.format(made, indent=2))


if __name__ == "__main__":
    main()
