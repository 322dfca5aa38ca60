"""`floorwright check`."""

from pathlib import Path

import click

from floorwright.cli.job import finish, job_argument, json_option, solved
from floorwright.cli.say import say, say_data


@click.command("check")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Lists what needs an answer, worst first, and what is good to know."""
    from floorwright.cli.text import findings_text
    from floorwright.export.data import check_data

    solution = solved(job_file, as_data=as_data)
    if as_data:
        say_data(check_data(solution))
    else:
        say(findings_text(solution.findings))
    finish(solution)
