"""`floorwright schema`."""

import click


@click.command("schema")
def command() -> None:
    """Prints the JSON Schema of the job file, for editors that check as you type."""
    from floorwright.export.data import as_json
    from floorwright.job.schema import json_schema

    click.echo(as_json(json_schema()), nl=False)
