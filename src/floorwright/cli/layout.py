"""`floorwright layout`."""

from pathlib import Path

import click

from floorwright.cli.job import job_argument, json_option, show


@click.command("layout")
@job_argument
@json_option
def command(job_file: Path, as_data: bool) -> None:
    """Lays the pattern and prints the ranked options, the cuts at every wall, and the proof."""
    from floorwright.cli.report import layout_text
    from floorwright.export.data_floor import layout_data

    show(job_file, as_data, layout_data, layout_text)
