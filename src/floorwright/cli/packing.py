"""Writing a pack and saying what was decided, for `pack` and `demo`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from floorwright.cli.job import finish, is_stopped
from floorwright.cli.progress import progress_line
from floorwright.cli.say import say, say_data, warn
from floorwright.cli.text import paragraph, plain

if TYPE_CHECKING:
    from pathlib import Path

    from floorwright.export.folder import Written
    from floorwright.job.solution import Solution

MANY: Final = ((".svg", "picture", "SVG"), (".csv", "table", "CSV"))


def hand_over(solution: Solution, folder: Path, as_data: bool, before: Written | None = None) -> None:
    """Writes the pack of a solution into a folder and says what the job decided; ends as `finish` does.

    Where Ctrl-C ended the search nothing is written, and the best found till then is printed.

    Args:
        solution: of the job.
        folder: is made if it is not there.
        as_data: whether to print data instead.
        before: what was written there already, to be told of with the rest.
    """
    if is_stopped(solution):
        _say_best(solution, as_data)
        finish(solution)
    written = _write(solution, folder)
    new = (*(before.written if before else ()), *written.written)
    kept = (*(before.kept if before else ()), *written.kept)
    if as_data:
        from floorwright.export.data import files_data

        say_data(files_data(solution.findings, new, kept))
    else:
        _say(solution, new, kept)
    finish(solution)


def _say_best(solution: Solution, as_data: bool) -> None:
    if as_data:
        from floorwright.export.data_floor import layout_data

        say_data(layout_data(solution))
    else:
        from floorwright.cli.report import layout_text

        say(layout_text(solution))


def _write(solution: Solution, folder: Path) -> Written:
    from floorwright.export.files import pack_files
    from floorwright.export.folder import write_files
    from floorwright.sheets.pack import pack

    with progress_line() as progress:
        progress("drawing the sheets", 0.0)
        sheets = pack(solution)
        progress("setting the sheets", 0.3)
        return write_files(folder, pack_files(sheets))


def _say(solution: Solution, written: tuple[Path, ...], kept: tuple[Path, ...]) -> None:
    """Prints what was decided, line by line, where the sheets are, and how much there is to answer."""
    from floorwright.findings import Severity
    from floorwright.sheets.decided import decided
    from floorwright.sheets.words import counted

    for line in decided(solution):
        say(paragraph(plain(line)))
    for ending, what in ((".toml", "Job"), (".pdf", "Sheets"), (".dxf", "Drawing")):
        for path in written:
            if path.suffix == ending:
                say(f"{what}: {path}")
    many = [(sum(path.suffix == ending for path in written), what, form) for ending, what, form in MANY]
    beside = " and ".join(f"{counted(count, what)} ({form})" for count, what, form in many if count)
    if beside:
        say(f"Beside them: {beside}.")
    for path in kept:
        warn(f"Left alone, since it was edited or is not ours: {path}")
    for severity, what in ((Severity.ERROR, "to put right"), (Severity.WARNING, "to answer")):
        count = sum(finding.severity is severity for finding in solution.findings)
        if count:
            warn(f"{counted(count, 'thing')} {what}: see the first page, or `floorwright check`.")
