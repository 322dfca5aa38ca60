"""Writes the pages of the manual that the program makes: commands.md from the helps, job-file.md from the model,
patterns.md from the catalogue (its pictures are `tools/make_pattern_pictures.py`'s).

    .venv/bin/python tools/make_docs.py

A test compares the pages with what this writes.
"""

from pathlib import Path
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import click
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from floorwright.cli.catalogue import allowed
from floorwright.cli.main import COMMANDS, commands
from floorwright.job.model import Job
from floorwright.job.model.values import Fallback
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.entry import Pattern

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


def patterns_page() -> str:
    """Returns docs/patterns.md."""
    intro = (
        "# Patterns\n\n"
        'A zone names its pattern: `pattern = "herringbone"`. `goods` are the goods of its pieces; where a pattern '
        "has pieces of several sizes, `goods` are those of the first and `sizes` names the others: "
        '`sizes = { dot = "Dot 80" }`. All sizes are real ones, measured, and every pattern is made with the joint in '
        "it. Where the goods do not close with the joint, the program says by how much, and the size at which they "
        "would. L and W below are length and width of a piece, J is the joint.\n\n"
        "The pictures are drawn by the program, from goods that close. `floorwright patterns` lists the same in a "
        "terminal. Cautions are common practice without a source, unless one is named; local codes and the maker's "
        "word go before them.\n\n"
        "Circles, fans and copings are a kind of zone of their own: [Rings, fans and copings](rings.md).\n\n"
        "A pattern that is not here is drawn, in the job file, as DXF or as SVG: [Your own](own-patterns.md)."
    )
    return "\n\n".join([intro, *map(_pattern, PATTERNS.values())]) + "\n"


def _pattern(pattern: Pattern) -> str:
    picture = pattern.name.replace(",", "").replace(" ", "-")
    rows = [
        (
            "goods",
            "; ".join(f"`{kind.name}`: {kind.measured}" if kind.name else kind.measured for kind in pattern.kinds),
        ),
        *((f"`{one.key}`", one.meaning + allowed(one)) for one in pattern.parameters),
        ("closes", pattern.closes),
        ("working lines", pattern.lines),
        ("angles", pattern.angles),
        ("what goes wrong", " ".join(pattern.cautions)),
        ("symmetry", _symmetry(pattern)),
    ]
    if pattern.stands:
        rows.insert(1, ("`stand`", "`square to wall` or `diagonal to wall`: nobody can sign before it is said"))
    table = "| | |\n| --- | --- |\n" + "\n".join(f"| {head} | {_cell(text)} |" for head, text in rows if text)
    says = f"{pattern.says[0].upper()}{pattern.says[1:]}."
    return f"## {pattern.name}\n\n![{pattern.name}](pictures/patterns/{picture}.svg)\n\n{says}\n\n{table}"


def _symmetry(pattern: Pattern) -> str:
    shapes = "one shape" if pattern.pieces == 1 else f"{pattern.pieces} shapes"
    vertices = f"; {pattern.vertices} round every meeting" if pattern.vertices else ""
    return f"{pattern.group}; {shapes}{vertices}"


def pages() -> dict[Path, str]:
    """Returns path -> text of every page that is made."""
    return {
        DOCS / "commands.md": commands_page(),
        DOCS / "job-file.md": job_page(),
        DOCS / "patterns.md": patterns_page(),
    }


if __name__ == "__main__":
    for path, text in pages().items():
        path.write_text(text, encoding="utf-8")
