"""`floorwright survey`: of a job, or the blank booking of a room that is not measured yet."""

from pathlib import Path
from typing import Final

import click

from floorwright.cli.job import json_option, show

MOST_CORNERS: Final = 20
"""Of a blank booking; a larger room is booked part by part."""


@click.command("survey")
@click.argument("job_file", metavar="[JOB.toml]", required=False, type=click.Path(path_type=Path))
@click.option(
    "--plan",
    "corners",
    metavar="N",
    type=click.IntRange(3, MOST_CORNERS),
    help="Without a job: which distances to take in a room of N corners.",
)
@click.option("--inward", metavar="NAME", multiple=True, help="With --plan: a corner that turns into the room.")
@click.option("--imperial", is_flag=True, help="With --plan: feet and inches, Letter paper.")
@click.option(
    "-o",
    "--output",
    "pdf",
    metavar="FILE.pdf",
    type=click.Path(path_type=Path, dir_okay=False),
    help="With --plan: where to write the booking sheet.",
)
@json_option
def command(
    job_file: Path | None,
    corners: int | None,
    inward: tuple[str, ...],
    imperial: bool,
    pdf: Path | None,
    as_data: bool,
) -> None:
    """Adjusts the readings and prints corners, accuracy and suspects; with --plan, says what to measure first."""
    if corners is not None:
        from floorwright.cli.booking import book

        if job_file is not None:
            raise click.UsageError("--plan is for a room without a job file: leave one of them out.")
        book(corners, inward, imperial, pdf, as_data)
        return
    if inward or imperial or pdf:
        raise click.UsageError("--inward, --imperial and --output go with --plan.")
    if job_file is None:
        raise click.UsageError("Give a job file, or --plan N for a room of N corners that is still to be measured.")
    from floorwright.cli.report import survey_text
    from floorwright.export.data import survey_data

    show(job_file, as_data, survey_data, survey_text)
