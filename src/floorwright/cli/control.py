"""`floorwright control`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show


@click.command("control")
@job_argument
@click.option(
    "--compare", "compared", is_flag=True, help="Instead: every first line that the room offers, and what each costs."
)
@json_option
def command(job_file: Path, compared: bool, as_data: bool) -> None:
    """Prints the control lines: steps, marks, check readings, the snap list.

    Ties of the nodes and gauge rods follow where the job asks for them, ties of a diagonal floor in any case.
    """
    if compared:
        from floorwright.cli.compared import compared_text
        from floorwright.export.data_compared import compared_data

        show(job_file, as_data, compared_data, compared_text)
        return
    from floorwright.cli.report import control_text
    from floorwright.export.data_setout import lines_data

    show(job_file, as_data, lines_data, control_text)
