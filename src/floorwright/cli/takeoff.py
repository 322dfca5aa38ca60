"""`floorwright takeoff`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show


@click.command("takeoff")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Prints what to order, each line with its sum."""
    from floorwright.cli.report import takeoff_text
    from floorwright.export.data_cuts import takeoff_data

    show(job_file, as_data, takeoff_data, takeoff_text)
