"""The group of commands: names and one-line helps in a table, each command imported only when it is run."""

from importlib import import_module
from typing import Final

import click

from floorwright._version import __version__

COMMANDS: Final = {
    "new": "Write a commented job file to fill in.",
    "check": "List what needs an answer, and what is good to know.",
    "survey": "Adjust the readings: corners, accuracy and suspects.",
    "control": "First line, centre, square and 45s: steps, marks and check readings.",
    "layout": "Lay the pattern: the ranked options, cuts at every wall, and the proof.",
    "cuts": "The numbered cut list.",
    "takeoff": "What to order.",
    "pack": "Write the job pack: PDF, DXF, SVG, CSV and a copy for the phone.",
    "serve": "Open the working screen in the browser.",
    "patterns": "List the patterns that a zone may name, with their keys.",
    "practice": "Write practice sheets at true scale: exercises, answers, marking sheets.",
    "schema": "Print the JSON Schema of the job file.",
    "demo": "Write an example job and its pack into a folder.",
}


class LazyGroup(click.Group):
    """A group that knows its commands' names and helps without importing them."""

    def list_commands(self, _context: click.Context) -> list[str]:
        """Returns the names in the order of the job."""
        return list(COMMANDS)

    def get_command(self, _context: click.Context, name: str) -> click.Command | None:
        """Returns the command, imported now; None if there is none of that name."""
        if name not in COMMANDS:
            return None
        command: click.Command = import_module(f"floorwright.cli.{name}").command
        return command

    def format_commands(self, _context: click.Context, formatter: click.HelpFormatter) -> None:
        """Writes the table of commands from `COMMANDS`, importing none."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def resolve_command(
        self, context: click.Context, arguments: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Returns the command meant; an unknown one names the nearest."""
        from difflib import get_close_matches

        name = arguments[0]
        if name not in COMMANDS and not name.startswith("-"):
            near = get_close_matches(name, COMMANDS, n=1)
            hint = f" Did you mean `{near[0]}`?" if near else " `floorwright --help` lists them."
            context.fail(f"There is no command `{name}`.{hint}")
        return super().resolve_command(context, arguments)


@click.command(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="floorwright")
def commands() -> None:
    """Set out a patterned floor, from tape readings to a job pack.

    Start with `floorwright demo`, or `floorwright new kitchen.toml` for a job of your own.
    """
