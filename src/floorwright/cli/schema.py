"""`floorwright schema`."""

import click

from floorwright.cli.say import say_data


@click.command("schema")
def command() -> None:
    """Prints the JSON Schema of the job file, for editors that check as you type."""
    from floorwright.job.model.schema import json_schema

    say_data(json_schema())
