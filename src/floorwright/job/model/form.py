"""What the form of the job file knows about itself: its tables, their keys, the words that a key may take."""

from collections.abc import Iterable, Iterator
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from floorwright.job.model import Job
from floorwright.job.read.positions import Path


def fields_of(table: type[BaseModel]) -> dict[str, FieldInfo]:
    """Returns the fields of a table by the keys that a file calls them, in the form's order."""
    return {field.alias or name: field for name, field in table.model_fields.items()}


def table_in(annotation: Any) -> type[BaseModel] | None:
    """Returns the table that a field holds, alone, in a list or perhaps not at all; None where it holds none."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := table_in(part))), None)


def table_at(path: Path) -> type[BaseModel] | None:
    """Returns the table at a path of the file; None where there is none, or one whose keys are names."""
    table: type[BaseModel] | None = Job
    for key in path:
        if isinstance(key, int) or table is None:
            continue
        field = fields_of(table).get(key)
        table = table_in(field.annotation) if field else None
    return table


def choices_at(path: Path) -> tuple[str, ...]:
    """Returns the words that the value at a path may be."""
    table = table_at(path[:-1])
    field = fields_of(table).get(str(path[-1])) if table else None
    return tuple(map(str, _words(field.annotation))) if field else ()


def _words(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) is Literal:
        return get_args(annotation)
    return tuple(word for part in get_args(annotation) for word in _words(part))


def tables(table: type[BaseModel] = Job, name: str = "") -> Iterator[tuple[str, type[BaseModel]]]:
    """Yields every table with its header, `[survey.tape]` or `[[openings]]`; the top of the file has none."""
    yield name, table
    for key, field in fields_of(table).items():
        inner = table_in(field.annotation)
        if inner:
            dotted = f"{name.strip('[]')}.{key}".lstrip(".")
            yield from tables(inner, f"[[{dotted}]]" if is_list(field) else f"[{dotted}]")


def is_list(field: FieldInfo) -> bool:
    """Returns whether a field holds several tables."""
    return get_origin(field.annotation) is tuple


def headers_with(key: str) -> Iterable[str]:
    """Returns the headers of the tables that have a key."""
    return [name for name, table in tables() if key in fields_of(table)]
