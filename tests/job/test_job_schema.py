"""The JSON Schema and the starter jobs, held against each other by hand."""

import json
import tomllib
from typing import Any

import pytest

from floorwright.job.load import load_text
from floorwright.job.model.schema import DIALECT, json_schema
from floorwright.job.write.starter import starter

KINDS: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str,),
    "integer": (int,),
    "number": (int, float),
    "boolean": (bool,),
}


def fits(value: Any, node: dict[str, Any], schema: dict[str, Any]) -> bool:
    """Holds a value against as much of JSON Schema as ours uses, and knows no other word of it."""
    assert set(node) <= {
        "$ref", "$schema", "$defs", "additionalProperties", "anyOf", "const", "default", "description", "enum",
        "format", "items", "maxItems", "maxProperties", "maximum", "minItems", "minimum", "prefixItems", "properties",
        "required", "title", "type",
    }  # fmt: skip
    if "$ref" in node:
        return fits(value, schema["$defs"][node["$ref"].removeprefix("#/$defs/")], schema)
    if "anyOf" in node:
        return any(fits(value, kind, schema) for kind in node["anyOf"])
    if node.get("format") == "date":
        return hasattr(value, "isoformat")
    if not isinstance(value, KINDS[node["type"]]) or (isinstance(value, bool) and node["type"] != "boolean"):
        return False
    if value not in node.get("enum", [value]) or node.get("const", value) != value:
        return False
    if isinstance(value, dict):
        inner = node.get("properties", {})
        other = node.get("additionalProperties")
        return set(node.get("required", ())) <= set(value) and all(
            fits(one, inner[key], schema) if key in inner else isinstance(other, dict) and fits(one, other, schema)
            for key, one in value.items()
        )
    if isinstance(value, list) and "items" in node:
        return all(fits(one, node["items"], schema) for one in value)
    return True


@pytest.mark.parametrize("metric", [True, False])
def test_the_starter_fits_the_schema(metric: bool) -> None:
    schema = json_schema()
    data = tomllib.loads(starter(metric=metric))
    assert fits(data, schema, schema)
    assert not fits({**data, "waste": 10}, schema, schema)
    assert not fits({**data, "units": "yd"}, schema, schema)
    assert not fits({**data, "openings": [{"name": "door"}]}, schema, schema)
    assert not fits({**data, "order": {"spares": "three"}}, schema, schema)


def test_the_schema_tells_of_every_key() -> None:
    schema = json_schema()
    assert schema["$schema"] == DIALECT
    tables = [schema, *schema["$defs"].values()]
    for table in tables:
        assert table["additionalProperties"] is False
        assert table["description"]
        for key, field in table["properties"].items():
            assert field.get("description") or "$ref" in field, key
    text = json.dumps(schema)
    assert "null" not in text
    assert "Without it 5 mm, or 1/4in." in text


def test_keys_are_called_as_in_the_file() -> None:
    definitions = json_schema()["$defs"]
    assert "from" in definitions["Opening"]["properties"]
    assert "class" in definitions["Tape"]["properties"]
    assert "set" in definitions["Control"]["properties"]
    assert definitions["Zone"]["required"] == ["goods", "joint"]


@pytest.mark.parametrize("metric", [True, False])
def test_the_starter_loads_without_a_finding(metric: bool) -> None:
    loaded = load_text(starter(metric=metric))
    assert loaded.findings == ()
    assert loaded.job is not None
    assert loaded.job.style.system == ("metric" if metric else "imperial")


@pytest.mark.parametrize("metric", [True, False])
def test_what_the_starter_has_behind_remarks_is_right_too(metric: bool) -> None:
    text = starter(metric=metric)
    opened = []
    is_closed = False
    for line in text.splitlines():
        bare = line.removeprefix("# ")
        # A table that needs a file beside the job stays shut, with its keys.
        is_closed = bool(line.strip()) and (is_closed or bare.startswith("[laid]"))
        is_key = bare.partition(" ")[0] in {
            "inward", "corner", "angle", "within_degrees", "point", "within", "over", "name", "kind", "wall", "from",
            "along", "out", "diameter", "group", "aim", "under", "visible", "within_count", "bows", "rise",
            "reach", "skins", "straightedge", "to", "thickness", "scanned", "depth", "pattern", "length", "border_ends",
            "border_sides", "blade", "colours", "outline",
        }  # fmt: skip
        opens = not is_closed and (is_key or bare.startswith("["))
        opened.append(bare if bare != line and opens else line)
    loaded = load_text("\n".join(opened))
    assert loaded.findings == ()
    assert loaded.job is not None
    assert loaded.job.obstacles
    assert loaded.job.survey.square
    assert loaded.job.survey.angles
    assert loaded.job.survey.offsets
    assert loaded.job.slab_joints
    assert loaded.job.scoring is not None
    group = loaded.job.goods[0]
    assert group.length == pytest.approx(group.size[0])
