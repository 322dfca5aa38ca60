"""`floorwright new`."""

from pathlib import Path

import click

from floorwright.cli.job import json_option
from floorwright.cli.say import say, say_data


@click.command("new")
@click.argument("job_file", metavar="JOB.toml", type=click.Path(path_type=Path))
@click.option("--imperial", is_flag=True, help="Feet and inches, US words, Letter paper.")
@json_option
def command(job_file: Path, imperial: bool, as_data: bool) -> None:
    """Writes a commented job file to fill in. A file that is there already is left alone."""
    from floorwright.export.folder import write_whole
    from floorwright.job.write.starter import starter

    path = job_file if job_file.suffix else job_file.with_suffix(".toml")
    if path.exists():
        raise click.ClickException(f"{path} is there already and stays as it is. Give another name.")
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, starter(metric=not imperial).encode())
    if as_data:
        from floorwright.export.data import files_data

        say_data(files_data((), (path,)))
    else:
        say(f"Wrote {path}. Put your readings in, then: floorwright check {path}")
