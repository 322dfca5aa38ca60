"""What every table of the job file is, and how a default that depends on the file's units is read."""

from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from floorwright.job.model import values
from floorwright.job.model.values import Fallback


def as_if_read(default: object, alias: str | None = None) -> Any:
    """Returns a field whose default is read as though the file had held it, so that a file in inches has its own."""
    describe = default.describe if isinstance(default, Fallback) else None
    return Field(default=default, alias=alias, json_schema_extra=describe)


def by_system(metric: str, imperial: str) -> Any:
    """Returns a field whose default depends on the job's `units`."""
    return Field(default_factory=lambda read: imperial if values.is_imperial(read.get("units", "mm")) else metric)


class Table(BaseModel):
    """A table of the file: no key but its own, and nothing changes once it is read."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True, validate_default=True)
