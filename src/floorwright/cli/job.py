"""What every command on a job file shares: reading it, showing progress, printing, and the exit code."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import click

if TYPE_CHECKING:
    from collections.abc import Callable

    from floorwright.job.model import Job
    from floorwright.job.solution import Solution

CODE_ERROR: Final = 1

job_argument = click.argument("job_file", metavar="JOB.toml", type=click.Path(path_type=Path))
json_option = click.option("--json", "as_data", is_flag=True, help="Print the result as data (mm, degrees).")


def solved(job_file: Path) -> Solution:
    """Returns the solution of a job file; where the file cannot be read as a job, says why and ends with 1."""
    from floorwright.job.load import load

    loaded = load(job_file)
    if loaded.job is None:
        from floorwright.cli.text import findings_text

        click.echo(findings_text(loaded.findings), err=True)
        raise click.exceptions.Exit(CODE_ERROR)
    return solve_shown(loaded.job, loaded.findings)


def solve_shown(job: Job, findings: tuple[Any, ...] = ()) -> Solution:
    """Returns the solution of a job, with a progress line on a terminal."""
    from floorwright.job.solve import solve

    if not sys.stderr.isatty():
        return solve(job, findings=findings)
    from rich.progress import BarColumn, Progress, TextColumn

    with Progress(TextColumn("{task.description}"), BarColumn(), transient=True) as bar:
        task = bar.add_task("reading", total=1.0)
        return solve(
            job,
            findings=findings,
            progress=lambda what, share: bar.update(task, description=what, completed=share),
        )


def show(
    solution: Solution,
    as_data: bool,
    data: Callable[[Solution], dict[str, Any]],
    text: Callable[[Solution], str],
) -> None:
    """Prints a result as data or as text (what needs an answer goes to stderr); ends with 1 if there is an error."""
    from floorwright.findings import Severity, has_error

    if as_data:
        from floorwright.export.data import as_json

        click.echo(as_json(data(solution)), nl=False)
    else:
        from floorwright.cli.text import finding_text

        click.echo(text(solution))
        for finding in solution.findings:
            if finding.severity is not Severity.NOTE:
                click.echo(finding_text(finding), err=True)
    if has_error(solution.findings):
        raise click.exceptions.Exit(CODE_ERROR)
