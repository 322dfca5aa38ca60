"""`floorwright control`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show


@click.command("control")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Prints the control lines: steps, marks, check readings and the snap list."""
    from floorwright.cli.report import control_text
    from floorwright.export.data import control_data

    show(job_file, as_data, control_data, control_text)
