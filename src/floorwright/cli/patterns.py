"""`floorwright patterns`."""

import click

from floorwright.cli.job import json_option
from floorwright.cli.say import say, say_data


@click.command("patterns")
@click.argument("name", required=False)
@json_option
def command(name: str | None, as_data: bool) -> None:
    """Lists the patterns that a zone may name, or tells all about one: goods, keys, working lines, what goes wrong."""
    from floorwright.cli.catalogue import catalogue_text, pattern_text
    from floorwright.export.data_patterns import catalogue_data
    from floorwright.job.read.problem import did_you_mean
    from floorwright.pattern.catalogue import PATTERNS

    if name is not None and name not in PATTERNS:
        near = did_you_mean(name, PATTERNS)
        raise click.BadParameter(
            f"there is no pattern {name!r}." + (f" Did you mean {near!r}?" if near else ""), param_hint="NAME"
        )
    chosen = tuple(PATTERNS.values()) if name is None else (PATTERNS[name],)
    if as_data:
        say_data(catalogue_data(chosen))
    else:
        say(catalogue_text(chosen) if name is None else pattern_text(chosen[0]))
