"""Edits of a job file that leave the rest of its text as it is: comments, order and spacing.

An edit names a value by its path: keys, and places in arrays counted from 0. Edits made of one text can be made of
another that has been changed meanwhile, as long as nobody changed the same values.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from floorwright.errors import FloorwrightValueError
from floorwright.job.read.misfit import value_at

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tomlkit import TOMLDocument
    from tomlkit.items import Table

    from floorwright.job.read.positions import Path


class EditError(FloorwrightValueError):
    """An edit that its text has no place for."""


class EditClashError(EditError):
    """An edit of a value that somebody else has changed meanwhile.

    Attributes:
        path: of the value.
        before: what it was when the edit was made; None for nothing.
        now: what it is now; None for nothing.
    """

    def __init__(self, path: Path, before: object, now: object) -> None:
        """Says which value, what it was and what it is."""
        was = "nothing" if before is None else repr(before)
        has = "nothing" if now is None else repr(now)
        super().__init__(f"{path_text(path)} was {was} and has become {has} meanwhile")
        self.path, self.before, self.now = path, before, now


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One change of a job file.

    Attributes:
        do: `put` gives the path a value, making the tables that lead there; `add` puts a value at the end of the array
            at the path, making it if need be; `drop` takes out what is at the path.
        path: of the value, or with `add` of the array.
        value: as JSON has it; a table is an object.
    """

    do: Literal["put", "add", "drop"]
    path: Path
    value: Any = None


def path_text(path: Path) -> str:
    """Returns a path as a person reads it, its places counted from 1: `zones 1, joint`."""
    text = ""
    for step in path:
        text += f" {step + 1}" if isinstance(step, int) else f"{', ' if text else ''}{step}"
    return text


def edited(text: str, edits: Iterable[Edit]) -> str:
    """Returns the text with edits made one after the other.

    Args:
        text: of a job file, TOML.
        edits: see `Edit`.

    Raises:
        EditError: the text is no TOML, or has no place for an edit; nothing is made of the others then.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text)
        for edit in edits:
            _make(document, edit)
        return _spaced(tomlkit.dumps(document))
    except TOMLKitError as error:
        raise EditError(f"the file cannot be read: {error}") from error


def merged(before: str, now: str, edits: Iterable[Edit]) -> str:
    """Returns edits of one text made of what it has become.

    Args:
        before: the text that the edits were made of.
        now: what somebody else made of it meanwhile.
        edits: see `Edit`.

    Raises:
        EditClashError: an edit's value, or what holds it, was changed meanwhile.
        EditError: as for `edited`.
    """
    edits = tuple(edits)
    old, new = _tables(before), _tables(now)
    for edit in edits:
        for array in (edit.path[:end] for end, step in enumerate(edit.path) if isinstance(step, int)):
            was, has = _places(value_at(old, array)), _places(value_at(new, array))
            if was != has:
                raise EditClashError(array, was, has)
        # What is added to the end of an array takes nothing from anybody.
        was, has = value_at(old, edit.path), value_at(new, edit.path)
        if edit.do != "add" and was != has:
            raise EditClashError(edit.path, was, has)
    return edited(now, edits)


def _places(array: object) -> list[object]:
    """Returns what stands at each place of an array, by name where it has one: a place means the same while it does."""
    rows = array if isinstance(array, list) else []
    return [row.get("name") if isinstance(row, dict) else row for row in rows]


def _tables(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise EditError(f"the file cannot be read: {error}") from error


def _make(document: TOMLDocument, edit: Edit) -> None:
    if not edit.path:
        raise EditError("an edit needs a path")
    holder, last = _holder(document, edit), edit.path[-1]
    if edit.do == "drop":
        if not _has(holder, last):
            raise EditError(f"there is no {path_text(edit.path)} to take out")
        del holder[last]
    elif edit.do == "add":
        _add(holder, last, edit)
    elif isinstance(last, int) and not _has(holder, last):
        raise EditError(f"there is no {path_text(edit.path)} to change")
    else:
        holder[last] = _item(edit.value, inside=isinstance(last, int))


def _holder(document: TOMLDocument, edit: Edit) -> Any:
    """Returns what holds the last step of an edit's path; with `put` and `add` the tables that lead there are made."""
    import tomlkit

    holder: Any = document
    for end, step in enumerate(edit.path[:-1], 1):
        if not _has(holder, step):
            if edit.do == "drop" or isinstance(step, int):
                raise EditError(f"there is no {path_text(edit.path[:end])}")
            holder[step] = tomlkit.table(is_super_table=True)
        holder = holder[step]
        if not isinstance(holder, dict | list):
            raise EditError(f"{path_text(edit.path[:end])} is a value, and holds no {edit.path[end]}")
    return holder


def _has(holder: Any, step: str | int) -> bool:
    if isinstance(holder, list):
        return isinstance(step, int) and 0 <= step < len(holder)
    return step in holder


def _add(holder: Any, last: str | int, edit: Edit) -> None:
    import tomlkit
    from tomlkit.items import AoT

    if not _has(holder, last):
        holder[last] = tomlkit.aot() if isinstance(edit.value, dict) else tomlkit.array()
    array = holder[last]
    if not isinstance(array, list):
        raise EditError(f"{path_text(edit.path)} is no list to add to")
    array.append(_table(edit.value) if isinstance(array, AoT) else _item(edit.value, inside=True))


def _item(value: Any, *, inside: bool = False) -> Any:
    """Returns a value as TOML: an object that holds no other objects in braces on a line, any other as a table."""
    import tomlkit

    if isinstance(value, dict):
        nested = any(isinstance(one, dict) for one in value.values())
        if nested and not inside:
            return _table(value)
        table = tomlkit.inline_table()
        for key, one in value.items():
            table.append(key, _item(one, inside=True))
        return table
    if isinstance(value, list):
        array = tomlkit.array()
        for one in value:
            array.append(_item(one, inside=True))
        return array
    if value is None:
        raise EditError("a value cannot be nothing; take it out instead")
    return tomlkit.item(value)


def _table(value: dict[str, Any]) -> Table:
    import tomlkit

    table = tomlkit.table()
    for key, one in value.items():
        table.append(key, _item(one))
    return table


def _spaced(text: str) -> str:
    """Returns the text with a blank line before each table that was put right under a key."""
    from floorwright.job.read.positions import positions

    lines = text.split("\n")
    headers = {line for line in positions(text).lines.values() if lines[line - 1].lstrip().startswith("[")}
    spaced: list[str] = []
    for number, line in enumerate(lines, 1):
        if number in headers and spaced and spaced[-1].strip() and not spaced[-1].lstrip().startswith("#"):
            spaced.append("")
        spaced.append(line)
    return "\n".join(spaced)
