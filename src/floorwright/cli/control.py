"""`floorwright control`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show


@click.command("control")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Prints the control lines: steps, marks, check readings, the snap list.

    Ties of the nodes and gauge rods follow where the job asks for them, ties of a diagonal floor in any case.
    """
    from floorwright.cli.report import control_text
    from floorwright.export.data_setout import lines_data

    show(job_file, as_data, lines_data, control_text)
