"""`floorwright pack`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, solved


@click.command("pack")
@job_argument
@click.option(
    "-o",
    "--output",
    "folder",
    metavar="FOLDER",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where to write it; a folder named after the job file if not said.",
)
@json_option
def command(job_file: Path, folder: Path | None, as_data: bool) -> None:
    """Writes the job pack into a folder: PDF, DXF, SVG, CSV and a copy for the phone.

    A file that somebody else made or edited there is left alone and named.
    """
    from floorwright.cli.packing import hand_over

    solution = solved(job_file, as_data=as_data)
    hand_over(solution, folder or _beside(job_file), as_data)


def _beside(job_file: Path) -> Path:
    """Returns the folder that a pack goes into where none is said: `kitchen` beside `kitchen.toml`."""
    return job_file.with_suffix("") if job_file.suffix else job_file.with_name(f"{job_file.name}-pack")
