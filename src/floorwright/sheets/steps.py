"""The construction steps in words, how true they come out, and the readings that prove them."""

from collections.abc import Iterator
from itertools import groupby

from floorwright.control.control import Construction, Control, Step
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Steps, Table
from floorwright.job.solution import Solution
from floorwright.sheets.control import chosen_constructions
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import listed, sentence
from floorwright.tolerance import COINCIDENT

TITLE = "Raise the square and the 45s in these steps, then prove them."


def steps_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of construction steps; the solution must have control."""
    control = solution.control
    assert control is not None
    figures = Figures(style=solution.style)
    made = chosen_constructions(control)
    blocks: list[Block] = []
    for one in made:
        if not _is_45(one):
            blocks += _construction((one,), control, figures)
    diagonal = tuple(one for one in made if _is_45(one))
    if diagonal:
        blocks += _construction(diagonal, control, figures)
    return Sheet(key="steps", title=TITLE, blocks=(*blocks, _checks(control, figures)))


def _is_45(made: Construction) -> bool:
    return made.makes.startswith("45")


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
        how = f"{step.tool.capitalize()} at {length}, from {_the(step.start)}"
        return f"{how}: cross that arc, at {step.end}." if again else f"{how}: strike a short arc near {step.end}."
    if step.action == "pull":
        return f"Pull the tape from {_the(step.start)} to {_the(step.end)}: it must read {length}."
    return f"Snap the {makes} through {_the(step.start)} and {_the(step.end)}."


def _the(name: str) -> str:
    return "the centre" if name == "centre" else name


def _construction(together: tuple[Construction, ...], control: Control, figures: Figures) -> tuple[Block, ...]:
    """Returns the steps of constructions that are done in one go, no step twice, and what to expect of them."""
    lines: list[str] = []
    for made in together:
        lines += _told(made, control, figures, lines)
    name = listed([made.makes for made in together])
    only = ", where you lay to them" if _is_45(together[0]) else ""
    expected = [_expected(made, control, figures) for made in together]
    why = dict.fromkeys(sentence(made.why) for made in together)
    return (
        Steps(heading=sentence(f"{name}, by {together[0].method}")[:-1] + only, lines=tuple(lines)),
        Prose(lines=(*why, *expected, *_others(together[0], control, figures)), tone="quiet"),
    )


def _told(made: Construction, control: Control, figures: Figures, before: list[str]) -> Iterator[str]:
    """Yields the steps of a construction as sentences: equal marks together, none that an earlier one has done."""
    struck: set[str] = set()
    for _, group in groupby(made.steps, key=lambda step: _together(step, control)):
        steps = list(group)
        said = (
            _marks_text(steps, figures)
            if len(steps) > 1
            else step_text(steps[0], made.makes, control, figures, again=steps[0].end in struck)
        )
        if said not in before:
            yield said
        struck.update(step.end for step in steps if step.action == "arc")


def _together(step: Step, control: Control) -> tuple[object, ...]:
    """Returns what steps have in common that are told as one: marks on the lines, equally far from one point."""
    on_wall = any(mark.name == step.end for line in control.lines for mark in line.marks)
    if step.action == "mark" and not on_wall:
        return step.start, round(step.length / COINCIDENT)
    return (step.number,)


def _marks_text(steps: list[Step], figures: Figures) -> str:
    names = listed([step.end for step in steps])
    length = figures.room(steps[0].length, unit=True)
    return f"Mark {names} on the lines, each {length} from {_the(steps[0].start)}."


def _expected(made: Construction, control: Control, figures: Figures) -> str:
    line = next(line for line in control.lines if line.name == made.makes)
    worst = max(line.drift, key=lambda drift: drift.sd, default=None)
    said = f"two times in three the {made.makes} is true within {figures.out(made.sd_angle)}"
    if worst is not None:
        said += f": {figures.fine(worst.sd)} at {figures.room(worst.at, unit=True)} from the centre"
    return sentence(said)


def _checks(control: Control, figures: Figures) -> Table:
    return Table(
        heading="Prove it before you mix: take these readings",
        columns=(
            Column(heading="Between"),
            Column(heading="Must read", unit=figures.column, align="right", marked=True),
            Column(heading="give or take", unit=figures.column, align="right"),
            Column(heading="You read"),
        ),
        rows=tuple(
            (
                sentence(" and ".join(check.between))[:-1],
                figures.reading(check.expected),
                figures.reading(check.allow),
                "",
            )
            for check in control.checks
        ),
    )


def _others(made: Construction, control: Control, figures: Figures) -> tuple[str, ...]:
    """Returns the ways to raise the same line that were worked out and not chosen."""
    ways = [
        f"by {other.method} ({figures.room(other.size, unit=True)}) within {figures.out(other.sd_angle)}"
        for other in control.constructions
        if other.makes == made.makes and not other.chosen
    ]
    return (sentence(f"less true here {listed(ways)}"),) if ways else ()
