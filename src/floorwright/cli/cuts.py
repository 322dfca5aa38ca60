"""`floorwright cuts`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show


@click.command("cuts")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Prints the numbered cut list."""
    from floorwright.cli.report import cuts_text
    from floorwright.export.data_cuts import cuts_data

    show(job_file, as_data, cuts_data, cuts_text)
