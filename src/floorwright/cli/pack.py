"""`floorwright pack`."""

from pathlib import Path

import click

from floorwright.cli.job import CODE_ERROR, job_argument, json_option, solved


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
    """Writes the job pack into a folder: PDF, DXF, SVG and CSV.

    A file that somebody else made or edited there is left alone and named.
    """
    from floorwright.cli.packing import say, write_pack
    from floorwright.export.data import as_json, check_data
    from floorwright.findings import has_error

    solution = solved(job_file)
    written = write_pack(solution, folder or job_file.with_suffix(""))
    if as_data:
        files = {"files": [str(path) for path in written.written], "kept": [str(path) for path in written.kept]}
        click.echo(as_json(check_data(solution) | files), nl=False)
    else:
        say(solution, written)
    if has_error(solution.findings):
        raise click.exceptions.Exit(CODE_ERROR)
