"""The JSON of plans against its published schema, for every example and every option."""

import json
from pathlib import Path

import jsonschema
import pytest

from lintarsia.chart import Limits
from lintarsia.ground.resources import resource
from lintarsia.planning.planner import make_plan
from lintarsia.planning.what_if import weigh_areas
from lintarsia.plansheets.choices import choices_documents
from lintarsia.plansheets.json import plan_json
from lintarsia.plansheets.sidebyside import compare_documents, try_limits
from lintarsia.reading import read_chart

SCHEMA = json.loads((resource("schema") / "plan.schema.json").read_text("utf-8"))
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.chart.yaml"))


def closed(schema):
    """The schema with every object closed, so that a key it does not describe is found."""
    if isinstance(schema, list):
        return [closed(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    schema = {key: closed(value) for key, value in schema.items()}
    if "required" in schema and isinstance(schema.get("properties"), dict):
        schema["additionalProperties"] = False
    return schema


VALIDATOR = jsonschema.Draft202012Validator(closed(SCHEMA))


def test_the_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.name.partition(".")[0])
def test_every_example(example):
    chart = read_chart(str(example)).chart
    assert chart is not None
    plan = make_plan(chart)
    tries = compare_documents(try_limits(chart, [Limits(strand=3), Limits(carry=5, idle=0)], make_plan))
    areas = choices_documents(weigh_areas(chart, plan))
    document = json.loads(plan_json(chart, plan, allowance=0.1, tail_mm=150.0, tries=tries, what_if=areas))
    assert [error.message for error in VALIDATOR.iter_errors(document)] == []
    totals = document["totals"]
    assert totals["supplies"] == len(document["supplies"]) == sum(c["supplies"] for c in document["colours"].values())
    assert totals["metres"] == pytest.approx(sum(s["metres"] for s in document["supplies"]), abs=0.005 * 50)
    assert len(document["rows"]) == chart.grid.height


def test_any_text_can_stand_in_it(tmp_path):
    file = tmp_path / "odd.chart.yaml"
    file.write_text(
        'lintarsia: 1\ntitle: "Quote \\" and back\\\\slash, 羊毛"\n'
        "gauge: {stitches: 22, rows: 30, over: 10 cm}\n"
        'colours: {"\\"": {name: "a\\"b", shade: "#000000"}, é: {name: "…", shade: "#ffffff"}}\n'
        'chart: "\\"é\\"\\né\\"é"\n',
        "utf-8",
    )
    chart = read_chart(str(file)).chart
    assert chart is not None
    document = json.loads(plan_json(chart, make_plan(chart)))
    assert document["title"] == 'Quote " and back\\slash, 羊毛'
    assert set(document["colours"]) == {'"', "é"}
    assert list(VALIDATOR.iter_errors(document)) == []
