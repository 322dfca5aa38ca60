"""The construction steps in words, how true they come out, and the readings that prove them."""

import math
from collections.abc import Iterator, Sequence
from itertools import groupby

from floorwright.control.control import Check, Construction, Control, Mark, Step
from floorwright.control.readings import is_for
from floorwright.control.square import CENTRE
from floorwright.control.words import fine_bare
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Steps, Table
from floorwright.findings import Severity
from floorwright.job.model import Job
from floorwright.job.solution import Solution
from floorwright.sheets.control import chosen_constructions
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import listed, sentence, told, unbroken
from floorwright.tolerance import COINCIDENT, TOUCH

TITLE = "Raise the square and the 45s, then prove them."
ROOM = "and the room"

HERE = {"control-square-accuracy", "control-45-accuracy"}
"""Findings about how true the lines come out."""

Said = tuple[str, str]
"""A step as a sentence, and the figure in it that people mark from."""


def steps_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of construction steps; the solution must have control."""
    control = solution.control
    assert control is not None
    figures = Figures(style=solution.style)
    together = done_together(control)
    said = tuple(_steps(one, control, figures) for one in together)
    cut = _even_cut([len(one.lines) for one in said])
    blocks: list[Block] = [Beside(left=said[:cut], right=said[cut:], share=0.5)] if len(said) > 1 else [*said]
    blocks.append(Prose(lines=tuple(why_so(one, control, figures) for one in together), tone="quiet"))
    doubts = tuple(told(one) for one in control.findings if one.code in HERE and one.severity is not Severity.NOTE)
    if doubts:
        blocks.append(Prose(lines=doubts, tone="doubt"))
    return Sheet(
        key="steps",
        title=TITLE,
        blocks=(*blocks, *_proofs(solution.job, control, figures, _read(solution)), *_verdict(solution)),
        lists=(("checks", _list(control, figures)),),
    )


def done_together(control: Control) -> list[tuple[Construction, ...]]:
    """Returns the constructions to carry out, in order, both 45s in one go."""
    made = chosen_constructions(control)
    together: list[tuple[Construction, ...]] = [(one,) for one in made if not _is_45(one)]
    diagonal = tuple(one for one in made if _is_45(one))
    return [*together, diagonal] if diagonal else together


def _even_cut(lengths: Sequence[int]) -> int:
    """Returns how many of some lists go into the left of two columns, so that the longer is as short as can be."""
    return min(range(1, max(2, len(lengths))), key=lambda cut: (max(sum(lengths[:cut]), sum(lengths[cut:])), -cut))


def _is_45(made: Construction) -> bool:
    return made.makes.startswith("45")


def _name(together: tuple[Construction, ...]) -> str:
    return "Both 45s" if len(together) > 1 else sentence(together[0].makes)[:-1]


def steps_heading(together: tuple[Construction, ...]) -> str:
    """Returns what constructions that are done in one go make, and how."""
    return f"{_name(together)}, by {together[0].method}"


def steps_told(together: tuple[Construction, ...], control: Control, figures: Figures) -> dict[Said, tuple[Step, ...]]:
    """Returns the steps of constructions done in one go as sentences, no step twice, each with what is done."""
    said: dict[Said, tuple[Step, ...]] = {}
    for made in together:
        for sentence_and_figure, steps in _told(made, control, figures):
            said.setdefault(sentence_and_figure, steps)
    return said


def _steps(together: tuple[Construction, ...], control: Control, figures: Figures) -> Steps:
    said = steps_told(together, control, figures)
    return Steps(
        heading=steps_heading(together),
        lines=tuple(line for line, _ in said),
        figures=tuple(figure for _, figure in said),
    )


def why_so(together: tuple[Construction, ...], control: Control, figures: Figures) -> str:
    """Returns why a line is raised in the way chosen, how true it comes out, and how true by the other ways."""
    ways = [
        f"by {other.method} ({figures.room(other.size, unit=True)}) {figures.out(other.sd_angle)}"
        for other in control.constructions
        if other.makes == together[0].makes and not other.chosen
    ]
    less = f"; less true here: {listed(ways)}" if ways else ""
    outs = listed(list(dict.fromkeys(figures.out(made.sd_angle) for made in together)))
    why = " ".join(dict.fromkeys(sentence(made.why) for made in together))
    return f"{_name(together)}. {why} {sentence(f'true within {outs}, two times in three{less}')}"


def _told(made: Construction, control: Control, figures: Figures) -> Iterator[tuple[Said, tuple[Step, ...]]]:
    """Yields the steps of a construction as sentences: equal marks and arcs that cross are told together."""
    struck: set[str] = set()
    for _, group in groupby(made.steps, key=lambda step: _together(step, control)):
        steps = tuple(group)
        if len(steps) == 1:
            yield step_text(steps[0], made.makes, control, figures, again=steps[0].end in struck), steps
        elif steps[0].action == "arc":
            yield _arcs_text(steps, control, figures), steps
        else:
            yield _marks_text(steps, control, figures), steps
        struck.update(step.end for step in steps if step.action == "arc")


def _together(step: Step, control: Control) -> tuple[object, ...]:
    """Returns what steps have in common that are told as one: marks equally far from one point, or arcs that cross."""
    length = round(step.length / COINCIDENT)
    if step.action == "arc":
        return step.tool, step.end, length
    if step.action == "mark" and step.end not in _walls(control):
        return step.start, length
    return (step.number,)


def _walls(control: Control) -> dict[str, str]:
    """Returns mark -> wall."""
    return {mark.name: mark.on for line in control.lines for mark in line.marks}


def step_text(step: Step, makes: str, control: Control, figures: Figures, again: bool = False) -> Said:
    """Returns one step as a sentence, and its figure.

    Args:
        step: to say.
        makes: name of the line that its construction makes.
        control: whose marks lie on walls.
        figures: how lengths print.
        again: whether an arc was swung at the same place before, so that this one crosses it.
    """
    length = figures.room(step.length, unit=True)
    start, end, walls = _the(step.start), _the(step.end), _walls(control)
    line, towards = _place(step, control)
    match step.action:
        case "mark" if step.tool == "laser":
            return (
                f"Set the laser on {start} and aim it along the line; on its square beam mark {end}, {length} out.",
                length,
            )
        case "extend":
            over = step.points[1][0]
            return f"Stretch the line from {start} over {over}: mark {end} on it, {length} beyond {over}.", length
        case "mark" if step.end in walls:
            return f"On wall {walls[step.end]} mark {step.end}, {length} from {step.start}.", length
        case "mark" if line == makes and step.end != CENTRE:
            return f"Mark {end} about square off the first line, {length} from {start}{towards}.", length
        case "mark" if step.end == CENTRE:
            return f"Mark the centre on it, {length} from {start}.", length
        case "mark":
            where = f"On the {line} mark {end}" if line else f"Mark {end} on the line"
            return f"{where}, {length} from {start}{towards}.", length
        case "arc" if again:
            return f"{step.tool.capitalize()} at {length}, from {start}: cross that arc, at {end}.", length
        case "arc":
            said = f"{step.tool.capitalize()} at {length}, from {start}: strike a short arc near {end}{towards}."
            return said, length
        case "help":
            return f"Snap a helping line that just touches the arcs at {start} and {end}, on past what is there.", ""
        case "touch":
            return f"Snap the {makes}: it just touches the arcs at {start} and {end}.", ""
        case "pull":
            return f"Pull the tape from {start} to {end}: it must read {length}.", length
        case _:
            return f"Snap the {makes} through {start} and {end}.", ""


def _arcs_text(steps: Sequence[Step], control: Control, figures: Figures) -> Said:
    length = figures.room(steps[0].length, unit=True)
    starts = listed([_the(step.start) for step in steps])
    _, towards = _place(steps[0], control)
    return f"{steps[0].tool.capitalize()} at {length}, from {starts}: cross arcs at {steps[0].end}{towards}.", length


def _marks_text(steps: Sequence[Step], control: Control, figures: Figures) -> Said:
    """Returns equal marks as one sentence, those on each line together."""
    length, start = figures.room(steps[0].length, unit=True), _the(steps[0].start)
    by_line: dict[str, list[str]] = {}
    for step in steps:
        by_line.setdefault(_place(step, control)[0] or "line", []).append(step.end)
    parts = [f"on the {line} mark {listed(names)}" for line, names in by_line.items()]
    both = ", one each side" if all(len(names) == 2 for names in by_line.values()) else ""
    return sentence(f"{listed(parts)}{both}, {length} from {start}"), length


def _place(step: Step, control: Control) -> Said:
    """Returns which of the first line and the square line a step's end lies on, and towards which wall; or nothing."""
    at = {name: (x, y) for name, x, y in step.points}.get(step.end)
    for line in control.lines[:2] if at else ():
        assert at is not None
        x, y = at[0] - line.through[0], at[1] - line.through[1]
        cos, sin = math.cos(line.angle), math.sin(line.angle)
        if abs(x * sin - y * cos) < TOUCH and line.marks:
            return line.name, f", towards wall {line.marks[-1 if x * cos + y * sin > 0 else 0].on}"
    return "", ""


def _the(name: str) -> str:
    return "the centre" if name == CENTRE else name


def _read(solution: Solution) -> dict[tuple[str, str], str]:
    """Returns check -> what was read there and what it says, of the readings that were taken."""
    assert solution.control is not None
    style = solution.style
    return {
        check.between: f"{fine_bare(verdict.reading.reads, style)}, {verdict.says}"
        for verdict in solution.verdicts
        for check in solution.control.checks
        if is_for(check, verdict.reading, solution.control, style)
    }


def _verdict(solution: Solution) -> tuple[Prose, ...]:
    """Returns what the readings taken say together, else each of them that is not good."""
    together = [one for one in solution.findings if one.code == "control-readings-together"]
    bad = [one for one in solution.findings if one.code == "control-reading" and one.severity is not Severity.NOTE]
    shown = together or bad
    if not shown:
        return ()
    tone = "doubt" if any(one.severity is not Severity.NOTE for one in shown) else "agrees"
    return (Prose(lines=tuple(told(one) for one in shown), tone=tone),)


def cross_heading(job: Job) -> str:
    """Returns when the cross is proved: before what cannot be taken back."""
    return f"Before you {'cut' if job.scoring is not None and not job.zones else 'mix'}, prove the cross"


def _proofs(job: Job, control: Control, figures: Figures, read: dict[tuple[str, str], str]) -> tuple[Block, ...]:
    """Returns the readings to take: a blank for each, or what was read; those across the lines beside the others."""
    across = tuple(check for check in control.checks if check.legs)
    others = tuple(check for check in control.checks if not check.legs)
    tables = [
        _checks(heading, ends, checks, [check_ends(check, control, figures) for check in checks], figures, read)
        for heading, ends, checks in ((cross_heading(job), "Out from the centre", across), (ROOM, "Between", others))
    ]
    if across and others:
        return (Beside(left=(tables[0],), right=(tables[1],), share=0.5),)
    return tuple(table for table in tables if table.rows)


def check_ends(check: Check, control: Control, figures: Figures) -> str:
    """Returns a reading by its ends: `E1 to E2`, across the lines or how far out each lies, `E 2000 to N 1500`."""
    if not check.legs:
        return sentence(" to ".join(check.between))[:-1]
    return " to ".join(
        _letter(leg, control) or f"{unbroken(leg.name)} {figures.room(leg.distance)}" for leg in check.legs
    )


def _letter(leg: Mark, control: Control) -> str:
    """Returns the letter of the point of a construction that a mark on a line is, if it is one."""
    points = (point for made in chosen_constructions(control) for step in made.steps for point in step.points)
    return next((name for name, x, y in points if math.dist((x, y), (leg.x, leg.y)) < TOUCH), "")


def _checks(
    heading: str,
    ends: str,
    checks: Sequence[Check],
    between: list[str],
    figures: Figures,
    read: dict[tuple[str, str], str],
) -> Table:
    return Table(
        heading=heading,
        columns=(
            Column(heading=ends),
            Column(heading="Reads", unit=figures.column, align="right", marked=True),
            Column(heading="±", align="right"),
            Column(heading="You read"),
        ),
        rows=tuple(
            (said, figures.room(check.expected), figures.within(check.allow, unit=False), read.get(check.between, ""))
            for said, check in zip(between, checks, strict=True)
        ),
    )


def _list(control: Control, figures: Figures) -> Table:
    """Returns every reading to take, told in full, in one list."""
    return Table(
        columns=(
            Column(heading="From"),
            Column(heading="To"),
            Column(heading="Reads", unit=figures.column, align="right"),
            Column(heading="Give or take", unit=figures.column, align="right"),
            Column(heading="What it proves"),
        ),
        rows=tuple(
            (*check.between, figures.room(check.expected), figures.within(check.allow, unit=False), check.why)
            for check in control.checks
        ),
    )
