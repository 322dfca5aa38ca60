"""Writes the pages of the manual that the program makes: commands.md from the helps, job-file.md from the model.

    .venv/bin/python tools/make_docs.py

A test compares the pages with what this writes.
"""

from pathlib import Path
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import click
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from floorwright.cli.main import COMMANDS, commands
from floorwright.job.fields import Fallback
from floorwright.job.model import Job

DOCS = Path(__file__).parent.parent / "docs"
WIDTH = 100


def commands_page() -> str:
    """Returns docs/commands.md."""
    context = click.Context(
        commands,
        info_name="floorwright",
        terminal_width=WIDTH,
        max_content_width=WIDTH,
        help_option_names=commands.context_settings["help_option_names"],
    )
    blocks = ["# Commands", f"```text\n{commands.get_help(context)}\n```"]
    for name in COMMANDS:
        command = commands.get_command(context, name)
        assert command is not None
        inner = click.Context(command, info_name=name, parent=context, terminal_width=WIDTH, max_content_width=WIDTH)
        blocks.append(f"## {name}\n\n```text\n{command.get_help(inner)}\n```")
    blocks.append(
        "## How a command ends\n\n"
        "| code | meaning |\n| --- | --- |\n"
        "| 0 | no finding is an error |\n"
        "| 1 | at least one is, or the job cannot be read |\n"
        "| 2 | a wrong option or argument |\n"
        "| 3 | our own fault, or the disk's: it says which |\n"
        "| 130 | stopped by Ctrl-C |\n\n"
        "Results go to stdout; what needs an answer, what was left alone and what went wrong go to stderr, each in a "
        "line or two. With `--json` stdout holds one object, in UTF-8, always with `schema`, `units` and `findings`; "
        "lengths are in mm and angles in degrees anticlockwise from x, and every key says so. "
        "`FLOORWRIGHT_TRACEBACK=1` shows where a fault of ours happened."
    )
    return "\n\n".join(blocks) + "\n"


def job_page() -> str:
    """Returns docs/job-file.md."""
    intro = (
        "# The job file\n\n"
        "TOML, one fact a line. A length is a number in the file's `units`, or text with its own unit: `3600`, "
        '`"3.6 m"`, `"7ft 3 1/2in"`, `"40 1/2in"`. (`7\' 3 1/2"` holds both of TOML\'s quote marks, so write '
        "`7ft 3 1/2in`.) An unknown key is pointed out with its line; so is everything else that cannot be meant. "
        "`floorwright schema` prints the same as JSON Schema. Only `survey` is needed for a plan; `goods` and `zones` "
        "add the layout."
    )
    tables = [intro, *_tables(Job, "")]
    return "\n\n".join(tables) + "\n"


def _tables(table: type[BaseModel], path: str) -> list[str]:
    rows, inner = [], []
    for name, field in table.model_fields.items():
        key = field.alias or name
        below = _table_in(field.annotation)
        if below is None:
            rows.append(
                f"| `{key}` | {_words(field.annotation)} | {_default(field)} | {_cell(field.description or '')} |"
            )
        else:
            many = "tuple" in str(field.annotation)
            inner += [_heading(f"{path}{key}", many, field.description or ""), *_tables(below, f"{path}{key}.")]
    head = "| key | holds | if left out | meaning |\n| --- | --- | --- | --- |\n"
    return [*([head + "\n".join(rows)] if rows else []), *inner]


def _heading(path: str, many: bool, meaning: str) -> str:
    brackets = f"[[{path}]]" if many else f"[{path}]"
    return f"## `{brackets}`\n\n{meaning}"


def _table_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for argument in get_args(annotation):
        found = _table_in(argument)
        if found is not None:
            return found
    return None


KINDS = {"str": "text", "float": "length", "int": "whole number", "bool": "true or false", "Fraction": "fraction"}


def _words(annotation: Any) -> str:
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _words(arguments[0])
    if origin is Literal:
        return ", ".join(f"`{value}`" for value in arguments)
    if origin in (Union, UnionType):
        return " or ".join(_words(argument) for argument in arguments if argument is not NoneType)
    if origin is tuple:
        return "list of " + _words(arguments[0]) if arguments[-1] is Ellipsis else f"list of {len(arguments)}"
    if origin is dict:
        return "table"
    name = getattr(annotation, "__name__", str(annotation))
    return KINDS.get(name, name)


def _default(field: FieldInfo) -> str:
    if field.is_required():
        return "needed"
    default = field.default
    if isinstance(default, Fallback):
        return f"`{default.metric}`, imperial `{default.imperial}`"
    if field.default_factory is not None:
        return "by `units`"
    if default is None or default in ("", (), {}):
        return ""
    return f"`{str(default).lower() if isinstance(default, bool) else default}`"


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")


def pages() -> dict[Path, str]:
    """Returns path -> text of every page that is made."""
    return {DOCS / "commands.md": commands_page(), DOCS / "job-file.md": job_page()}


if __name__ == "__main__":
    for path, text in pages().items():
        path.write_text(text, encoding="utf-8")
