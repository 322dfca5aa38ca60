"""`floorwright check`."""

from pathlib import Path

import click

from floorwright.cli.job import CODE_ERROR, job_argument, json_option, solved


@click.command("check")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Lists everything that needs an answer, worst first, and nothing else."""
    from floorwright.cli.text import findings_text
    from floorwright.export.data import as_json, check_data
    from floorwright.findings import has_error

    solution = solved(job_file)
    click.echo(as_json(check_data(solution)) if as_data else findings_text(solution.findings), nl=not as_data)
    if has_error(solution.findings):
        raise click.exceptions.Exit(CODE_ERROR)
