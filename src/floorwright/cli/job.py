"""What every command on a job file shares: reading it, showing progress, printing, and the exit code."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import click

from floorwright.cli import codes
from floorwright.cli.say import say, say_data, warn

if TYPE_CHECKING:
    from collections.abc import Callable

    from floorwright.job.solution import Solution


EARLIER: Final = {"survey": ("job", "survey", "plan"), "control": ("job", "survey", "plan", "control", "setout")}
"""Parts whose warnings a command shows, for those that come before the layout; the others show all."""

job_argument = click.argument("job_file", metavar="JOB.toml", type=click.Path(path_type=Path))
json_option = click.option("--json", "as_data", is_flag=True, help="Print the result as data (mm, degrees).")


def solved(job_file: Path, *, as_data: bool = False) -> Solution:
    """Returns the solution of a job file; where the file cannot be read as a job, says why and ends with 1."""
    from floorwright.cli.progress import progress_line
    from floorwright.cli.stop import stoppable
    from floorwright.job.load import load
    from floorwright.job.solve import solve

    loaded = load(job_file)
    if loaded.job is None:
        from floorwright.cli.text import findings_text
        from floorwright.export.data import unread_data

        if as_data:
            say_data(unread_data(loaded.findings))
        else:
            warn(findings_text(loaded.findings))
        raise click.exceptions.Exit(codes.ERROR)
    with progress_line() as line, stoppable(line) as (progress, stop):
        solution = solve(loaded.job, findings=loaded.findings, progress=progress, earlier=loaded.earlier)
    return replace(solution, stopped=solution.stopped or stop.asked)


def show(
    job_file: Path,
    as_data: bool,
    data: Callable[[Solution], dict[str, Any]],
    text: Callable[[Solution], str],
) -> None:
    """Solves a job and prints its result as data or as text; what needs an answer goes to stderr beside the text."""
    from floorwright.findings import Severity

    solution = solved(job_file, as_data=as_data)
    if as_data:
        say_data(data(solution))
    else:
        from floorwright.cli.text import finding_text

        say(text(solution))
        parts = EARLIER.get(click.get_current_context().info_name or "")
        for finding in solution.findings:
            ours = parts is None or finding.code.partition("-")[0] in parts
            if finding.severity is Severity.ERROR or (finding.severity is Severity.WARNING and ours):
                warn(finding_text(finding))
    finish(solution)


def is_stopped(solution: Solution) -> bool:
    """Returns whether Ctrl-C ended the search, so that the layout is the best that was found till then."""
    return solution.stopped or any(proof.stopped for layout in solution.layouts for proof in layout.proofs)


def finish(solution: Solution) -> None:
    """Ends with 130 if Ctrl-C ended the search, else with 1 if anything found leaves no result to trust."""
    from floorwright.findings import has_error

    if is_stopped(solution):
        warn("Stopped: this is the best found till then, with how far it may fall short.")
        raise click.exceptions.Exit(codes.STOPPED)
    if has_error(solution.findings):
        raise click.exceptions.Exit(codes.ERROR)
