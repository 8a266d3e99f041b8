"""The JSON Schema: it takes the example designs and refuses what a reader would refuse.

No validator is needed: the few keywords that the schema uses are followed here, after the JSON
Schema specification, draft 2020-12.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from plans.fixings import FIXINGS
from plans.joints import JOINTS
from plans.schema import json_schema
from plans.shaping import SHAPINGS

DESIGNS = Path(__file__).parent.parent.parent / "designs"
SCHEMA = json_schema()
KNOWN = {
    "$schema", "$defs", "$ref", "title", "description", "default", "type", "format", "enum", "const", "anyOf", "oneOf",
    "properties", "required", "additionalProperties", "propertyNames", "minProperties", "maxProperties", "items",
    "minItems", "maxItems", "minLength", "maxLength", "minimum", "maximum", "exclusiveMinimum",
}  # fmt: skip
TYPES: dict[str, tuple[type, ...]] = {
    "string": (str,),
    "number": (int, float),
    "integer": (int,),
    "boolean": (bool,),
    "object": (dict,),
    "array": (list,),
    "null": (type(None),),
}


def fits(value: Any, schema: dict[str, Any]) -> bool:
    assert set(schema) <= KNOWN, f"a keyword this test does not follow: {set(schema) - KNOWN}"
    if "$ref" in schema:
        return fits(value, SCHEMA["$defs"][schema["$ref"].removeprefix("#/$defs/")])
    if "type" in schema:
        names = [schema["type"]] if isinstance(schema["type"], str) else schema["type"]
        if not any(isinstance(value, TYPES[name]) and (name == "boolean") == isinstance(value, bool) for name in names):
            return False
    if "enum" in schema and value not in schema["enum"]:
        return False
    if "anyOf" in schema and not any(fits(value, one) for one in schema["anyOf"]):
        return False
    if "oneOf" in schema and sum(fits(value, one) for one in schema["oneOf"]) != 1:
        return False
    if isinstance(value, int | float):
        above = value >= schema.get("minimum", value) and value > schema.get("exclusiveMinimum", value - 1)
        return above and value <= schema.get("maximum", value)
    if isinstance(value, str):
        return schema.get("minLength", 0) <= len(value) <= schema.get("maxLength", len(value))
    if isinstance(value, list):
        in_limits = schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", len(value))
        return in_limits and all(fits(item, schema.get("items", {})) for item in value)
    return not isinstance(value, dict) or mapping_fits(value, schema)


def mapping_fits(value: dict[str, Any], schema: dict[str, Any]) -> bool:
    properties, others = schema.get("properties", {}), schema.get("additionalProperties", {})
    if any(key not in value for key in schema.get("required", [])):
        return False
    if not schema.get("minProperties", 0) <= len(value) <= schema.get("maxProperties", len(value)):
        return False
    if not all(fits(key, schema.get("propertyNames", {})) for key in value):
        return False
    for key, item in value.items():
        beside = key not in properties
        if beside and others is False:
            return False
        if not fits(item, properties.get(key, others if isinstance(others, dict) else {})):
            return False
    return True


def design(name: str) -> dict[str, Any]:
    # days as text, as editors hold them
    data = yaml.load((DESIGNS / name).read_text(encoding="utf-8"), yaml.SafeLoader)
    if "prices" in data:
        data["prices"]["date"] = str(data["prices"]["date"])
    return {**data, "date": str(data["date"])}


@pytest.mark.parametrize("name", ["porch_bench.yaml", "hook_rail.yaml"])
def test_the_examples_fit(name: str) -> None:
    assert fits(design(name), SCHEMA)


def changed(**changes: Any) -> dict[str, Any]:
    data = design("hook_rail.yaml")
    data["parts"]["shelf"] = {**data["parts"]["shelf"], **changes}
    return data


@pytest.mark.parametrize(
    "changes",
    [
        {"runs": "sideways"},
        {"widht": 3},
        {"length": [1, 2]},
        {"length": {"inch": 3}},
        {"where": {"leeft": 3}},
        {"shaping": [{"round ovr": {"radius": 1}}]},
        {"shaping": [{"round over": {}}]},
        {"cut_to": {"left": 3}},
        {"mirror": "sideways"},
    ],
)
def test_wrong_parts_do_not_fit(changes: dict[str, Any]) -> None:
    assert not fits(changed(**changes), SCHEMA)


def test_right_parts_fit() -> None:
    assert fits(changed(length={"inch": "10 1/2", "mm": 270}, mirror=["left-right"]), SCHEMA)
    assert fits(changed(**{"cut to": {"left": "back board.left"}, "show face": "top"}), SCHEMA)


def test_every_kind_can_be_completed() -> None:
    part = SCHEMA["$defs"]["PartSpec"]["properties"]
    for field, table in (
        (SCHEMA["properties"]["joints"], JOINTS),
        (SCHEMA["properties"]["fixings"], FIXINGS),
        (part["shaping"], SHAPINGS),
    ):
        assert [one["title"] for one in field["items"]["oneOf"]] == list(table)


def test_every_field_tells_an_editor_what_it_is() -> None:
    for entry in (SCHEMA, *SCHEMA["$defs"].values()):
        for name, field in entry.get("properties", {}).items():
            assert {"title", "$ref", "anyOf", "description"} & set(field), name
