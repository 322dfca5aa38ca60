"""The JSON Schema of the job file, for editors that complete and check while a person types."""

from typing import Any, Final

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaWarningKind

from floorwright.job.model import Job

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> dict[str, Any]:
    """Returns the JSON Schema (draft 2020-12) of what a job file holds.

    It knows keys, kinds of value and choices. What hangs on the file's units or on other keys only `job.load` knows.
    """
    schema = _plain(Job.model_json_schema(by_alias=True, schema_generator=_Generator))
    assert isinstance(schema, dict)
    return {"$schema": DIALECT, **schema, "title": "floorwright job file"}


class _Generator(GenerateJsonSchema):
    """Leaves defaults out that depend on the file's units, without a warning: their descriptions tell them."""

    ignored_warning_kinds: set[JsonSchemaWarningKind] = {"skipped-choice", "non-serializable-default"}  # noqa: RUF012


def _plain(node: Any) -> Any:
    """Takes out what a TOML file has no word for (null), what repeats a key (title), and defaults that are tables."""
    if isinstance(node, list):
        return [_plain(item) for item in node]
    if not isinstance(node, dict):
        return node
    plain = {key: _plain(value) for key, value in node.items() if not _is_noise(key, value)}
    kinds = [kind for kind in plain.get("anyOf", ()) if kind != {"type": "null"}]
    if "anyOf" in plain:
        del plain["anyOf"]
        plain |= kinds[0] if len(kinds) == 1 else {"anyOf": kinds}
    return plain


def _is_noise(key: str, value: Any) -> bool:
    is_title = key == "title" and isinstance(value, str)
    return is_title or (key == "default" and (value is None or isinstance(value, dict)))
