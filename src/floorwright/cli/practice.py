"""`floorwright practice`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from floorwright.cli.job import json_option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from floorwright.practice.exercise import Exercise, Marking

KINDS: Final = (
    "square", "bisect", "perpendicular", "parallel", "mitre", "arc", "balance", "wrong reading", "diagonal",
)  # fmt: skip
MOST: Final = 50
"""Variations in one file."""

LARGEST: Final = 999_999


@click.command("practice")
@click.option(
    "-o",
    "--output",
    "folder",
    metavar="FOLDER",
    default="practice",
    show_default=True,
    type=click.Path(path_type=Path, file_okay=False),
    help="Where to write the sheets.",
)
@click.option(
    "--seed",
    "first",
    metavar="N",
    default=1,
    show_default=True,
    type=click.IntRange(0, LARGEST),
    help="Number of the first variation; the same number gives the same sheet.",
)
@click.option(
    "--count", metavar="N", default=1, show_default=True, type=click.IntRange(1, MOST), help="How many variations."
)
@click.option(
    "--kind", "kinds", multiple=True, type=click.Choice(KINDS), help="Which exercises; all of them if not said."
)
@click.option("--units", default="mm", show_default=True, type=click.Choice(("mm", "in")), help="Units of the figures.")
@click.option("--paper", type=click.Choice(("A4", "Letter")), help="A4 for mm, Letter for inches, if not said.")
@click.option(
    "--line", metavar="LENGTH", help="Of the line that a square is raised on, such as 6m or 18ft; else by lot."
)
@click.option("--full", metavar="LENGTH", help="So far out earns all marks; 1 mm or 1/32 in if not said.")
@click.option("--half", metavar="LENGTH", help="So far out earns half of them; 2 mm or 1/16 in if not said.")
@click.option("--marks", metavar="N", default=2, show_default=True, type=click.IntRange(1, 100), help="For each check.")
@json_option
def command(
    folder: Path,
    first: int,
    count: int,
    kinds: tuple[str, ...],
    units: str,
    paper: str | None,
    line: str | None,
    full: str | None,
    half: str | None,
    marks: int,
    as_data: bool,
) -> None:
    """Writes practice sheets at true scale: exercises, answers with their sums, and marking sheets.

    Each variation has a number and no name. Its answers come from the parts that work out a real job.
    """
    from floorwright.practice.exercise import KINDS as ALL
    from floorwright.practice.exercise import Marking
    from floorwright.practice.make import exercises

    fine = ("1 mm", "2 mm") if units == "mm" else ("1/32 in", "1/16 in")
    marking = Marking(
        full=_length("--full", full or fine[0], units), half=_length("--half", half or fine[1], units), marks=marks
    )
    if not 0 < marking.full <= marking.half:
        raise click.UsageError("--full is over 0 and no more than --half.")
    length = _line(line, units)
    wanted = tuple(kind for kind in ALL if not kinds or kind in kinds)
    if length is not None and not {"square", "bisect"} & set(wanted):
        raise click.UsageError("--line goes with the kinds square and bisect.")
    made = exercises(wanted, first=first, count=count, units=units, line=length)
    _write(made, marking, folder, _name(first, count), paper or ("A4" if units == "mm" else "Letter"), as_data)


def _length(option: str, text: str, units: str) -> float:
    from floorwright.errors import LengthError
    from floorwright.units import parse_length

    try:
        return parse_length(text, units)
    except LengthError as error:
        raise click.UsageError(f"{option}: {text} is no length; write {error.expected}.") from error


def _line(text: str | None, units: str) -> float | None:
    from floorwright.practice.cross import LINES

    if text is None:
        return None
    length = _length("--line", text, units)
    shortest, longest = LINES[units]
    if not shortest <= length <= longest:
        raise click.UsageError(f"--line: {text} does not suit the paper; write 3.6 m to 6 m, or 12 ft to 19 ft.")
    return length


def _name(first: int, count: int) -> str:
    return f"practice-{first}.pdf" if count == 1 else f"practice-{first}-to-{first + count - 1}.pdf"


def _write(made: Sequence[Exercise], marking: Marking, folder: Path, name: str, paper: str, as_data: bool) -> None:
    from floorwright.cli.say import say, say_data, warn
    from floorwright.export.data_practice import practice_data
    from floorwright.export.folder import write_files
    from floorwright.export.pdf import pack_pdf
    from floorwright.sheets.pack import units_text
    from floorwright.sheets.practice import practice_pack

    pack = practice_pack(made, marking, paper=paper, units=units_text(made[0].style))
    written = write_files(folder, {name: pack_pdf(pack)})
    if as_data:
        say_data(practice_data(made, marking, written.written, written.kept))
        return
    for one in made:
        say(f"Variation {one.number}: {one.title}.")
    for path in written.written:
        say(f"Sheets: {path}")
    for path in written.kept:
        warn(f"Left alone, since it was edited or is not ours: {path}")
