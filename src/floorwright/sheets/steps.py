"""The construction steps in words, how true they come out, and the readings that prove them."""

from floorwright.control.control import Construction, Control, Step
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Steps, Table
from floorwright.job.solution import Solution
from floorwright.sheets.control import chosen_constructions
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import sentence

TITLE = "Raise the square and the 45s in these steps, then prove them."


def steps_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of construction steps; the solution must have control."""
    control = solution.control
    assert control is not None
    figures = Figures(style=solution.style)
    blocks: list[Block] = []
    for made in chosen_constructions(control):
        blocks += _construction(made, control, figures)
    blocks += [_checks(control, figures), *_others(control, figures)]
    return Sheet(key="steps", title=TITLE, blocks=tuple(blocks))


def step_text(step: Step, makes: str, control: Control, figures: Figures, again: bool = False) -> str:
    """Returns one step as a sentence.

    Args:
        step: to say.
        makes: name of the line that its construction makes.
        control: whose marks lie on walls.
        figures: how lengths print.
        again: whether an arc was swung at the same place before, so that this one crosses it.
    """
    length = figures.room(step.length, unit=True)
    walls = {mark.name: mark.on for line in control.lines for mark in line.marks}
    if step.action == "mark" and step.end in walls:
        return f"On wall {walls[step.end]} mark {step.end}, {length} from corner {step.start}."
    if step.action == "mark":
        return f"Mark {_the(step.end)} on the line, {length} from {_the(step.start)}."
    if step.action == "arc":
        how = f"Compass at {length}: from" if step.tool == "compass" else f"Tape at {length}: from"
        crossing = f"where it crosses the other is {step.end}" if again else f"near {step.end}"
        return f"{how} {_the(step.start)} swing a short arc, {crossing}."
    if step.action == "pull":
        return f"Pull the tape from {_the(step.start)} to {_the(step.end)}: it must read {length}."
    return f"Snap the {makes} through {_the(step.start)} and {_the(step.end)}."


def _the(name: str) -> str:
    return "the centre" if name == "centre" else name


def _construction(made: Construction, control: Control, figures: Figures) -> tuple[Block, ...]:
    struck: set[str] = set()
    lines = []
    for step in made.steps:
        lines.append(step_text(step, made.makes, control, figures, again=step.end in struck))
        if step.action == "arc":
            struck.add(step.end)
    line = next(line for line in control.lines if line.name == made.makes)
    worst = max(line.drift, key=lambda drift: drift.sd, default=None)
    expect = f"Expect it within {figures.out(made.sd_angle)}, two times in three"
    if worst is not None:
        expect += f": {figures.fine(worst.sd)} at {figures.room(worst.at, unit=True)} from the centre"
    return (
        Steps(heading=sentence(f"{made.makes}, by {made.method}")[:-1], lines=tuple(lines)),
        Prose(lines=(sentence(made.why), sentence(expect)), tone="quiet"),
    )


def _checks(control: Control, figures: Figures) -> Table:
    return Table(
        heading="Prove it before you mix: take these readings",
        columns=(
            Column(heading="From"),
            Column(heading="To"),
            Column(heading="Must read", unit=figures.column, align="right", marked=True),
            Column(heading="give or take", unit=figures.column, align="right"),
            Column(heading="You read"),
        ),
        rows=tuple(
            (*check.between, figures.reading(check.expected), figures.reading(check.allow), "")
            for check in control.checks
        ),
        ticks=True,
    )


def _others(control: Control, figures: Figures) -> tuple[Table, ...]:
    """Returns the ways that were worked out and not chosen."""
    rows = [
        (made.makes, made.method, figures.room(made.size, unit=True), figures.out(made.sd_angle))
        for made in control.constructions
        if not made.chosen
    ]
    if not rows:
        return ()
    table = Table(
        heading="Other ways, less true here",
        columns=(
            Column(heading="Line"),
            Column(heading="By"),
            Column(heading="Size", align="right"),
            Column(heading="Expect within", align="right"),
        ),
        rows=tuple(rows),
    )
    return (table,)
