"""`floorwright survey`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show, solved


@click.command("survey")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Adjusts the readings and prints corners, accuracy and suspects."""
    from floorwright.cli.report import survey_text
    from floorwright.export.data import survey_data

    show(solved(job_file), as_data, survey_data, survey_text)
