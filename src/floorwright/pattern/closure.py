"""Whether sizes close with a joint, and the size at which they would.

T-76 of the trade's figures: as many widths side by side as go to a length close only where L = k W + (k - 1) J, L and W
real sizes (the principle: Floor Trends, "Tile modularity"; the formula is geometry). Sizes off the box leave out the
joint, so they never do.
"""

from collections.abc import Iterator
from math import radians, sin, tan

from floorwright.findings import Finding, Severity
from floorwright.pattern.ashlar import SPANS
from floorwright.pattern.cell import Size
from floorwright.pattern.entry import Asked
from floorwright.pattern.fivefold import NARROW, WIDE, narrow_side
from floorwright.pattern.modular import FOUR_SIZES, THREE_SIZES, Spans, module
from floorwright.pattern.polygons import octagon_dot
from floorwright.pattern.rows import soldiers
from floorwright.pattern.seeded import plank_stagger, sett_stagger
from floorwright.pattern.weave import windmill_dot
from floorwright.tolerance import CLOSES, RANK_STEP

CODE = "pattern-closure"
IMPOSSIBLE = "pattern-impossible"
OFF_THE_BOX = "sizes off the box leave out the joint: lay ten pieces out and measure them"


def length_for(width: float, abreast: int, joint: float) -> float:
    """Returns the length that so many widths and the joints between them make up, mm.

    >>> length_for(100, 2, 3)
    203
    """
    return abreast * width + (abreast - 1) * joint


def width_for(length: float, abreast: int, joint: float) -> float:
    """Returns the width of which so many, with the joints between them, make up a length, mm.

    >>> width_for(600, 2, 3), width_for(600, 3, 3)
    (298.5, 198.0)
    """
    return (length - (abreast - 1) * joint) / abreast


def _abreast(asked: Asked, abreast: int, long: int, what: str) -> Iterator[Finding]:
    """Yields that a block of `abreast` widths by `long` lengths is not square, and the sizes at which it would be."""
    length, width = asked.size
    joint, text = asked.joint, asked.text
    across, along = length_for(width, abreast, joint), length_for(length, long, joint)
    over = across - along
    if abs(over) <= CLOSES * max(abreast, long):
        return
    pitch = (width + joint) * abreast / long
    longer, narrower = pitch - joint, (length + joint) * long / abreast - joint
    opened = joint + abs(over) / (long if over > 0 else abreast)
    number = "one is" if long == 1 else f"{long} end to end are"
    remedy = f"piece must be {text(longer)} x {text(width)}, or {text(length)} x {text(narrower)}"
    if joint > 0 and abs(length * long - width * abreast) <= RANK_STEP:
        remedy += f"; {OFF_THE_BOX}"
    yield asked.finding(
        CODE,
        f"{what}: {abreast} pieces with their joints are {text(across)} wide, and {number} {text(along)} long; "
        f"joints open to {text(opened)} one way",
        f"joints of {text(joint)} both ways: L = {_times(abreast, long)} W"
        + (f" + {abreast - 1} J" if long == 1 else ", joints counted"),
        remedy,
    )


def _times(abreast: int, long: int) -> str:
    return str(abreast) if long == 1 else f"{abreast}/{long}"


def basketweave(asked: Asked) -> Iterator[Finding]:
    """Yields what keeps the blocks from being square."""
    yield from _abreast(asked, int(asked.values["abreast"]), 1, "basketweave does not close")


def double_basketweave(asked: Asked) -> Iterator[Finding]:
    """Yields what keeps the blocks from being square."""
    yield from _abreast(asked, int(asked.values["abreast"]), 2, "double basketweave does not close")


def soldier_courses(asked: Asked) -> Iterator[Finding]:
    """Yields that soldiers do not come out even with the stretchers."""
    yield from _abreast(asked, soldiers(asked.size, asked.joint), 1, "the perps of the courses do not meet")


def herringbone(asked: Asked) -> Iterator[Finding]:
    """Yields that the arms are wider than a piece is long, or that joints do not line through."""
    abreast = int(asked.values["abreast"])
    length, width = asked.size
    wide = length_for(width, abreast, asked.joint)
    if wide > length + RANK_STEP:
        yield asked.finding(
            IMPOSSIBLE,
            f"herringbone with arms {asked.text(wide)} wide of pieces {asked.text(length)} long",
            "arms no wider than a piece is long",
            "lay fewer abreast, or put length and width the right way round",
            Severity.ERROR,
        )
        return
    count = round((length + asked.joint) / (abreast * (width + asked.joint)))
    through = length_for(wide, count, asked.joint)
    if abs(through - length) > CLOSES * count:
        narrower = (length + asked.joint) / (count * abreast) - asked.joint
        yield asked.finding(
            "pattern-lines-through",
            f"the joints are even, but ends and sides do not line through: {count * abreast} widths with their joints "
            f"are {asked.text(through)}, a length {asked.text(length)}",
            "",
            f"for joints that line through a piece must be {asked.text(through)} x {asked.text(width)}, "
            f"or {asked.text(length)} x {asked.text(narrower)}",
            Severity.NOTE,
        )


def octagon(asked: Asked) -> Iterator[Finding]:
    """Yields that the dot does not fit between the octagons."""
    across = asked.size[0]
    yield from _dot(asked, octagon_dot(across, asked.joint), "four octagons")


def windmill(asked: Asked) -> Iterator[Finding]:
    """Yields that the dot does not fit between the four sails."""
    needed = windmill_dot(asked.size, asked.joint)
    if needed <= 0:
        yield asked.finding(
            IMPOSSIBLE,
            f"windmill with pieces of {asked.text(asked.size[0])} x {asked.text(asked.size[1])}: they leave no dot",
            "a piece longer than its width and a joint",
            "put length and width the right way round, or lay another pattern",
            Severity.ERROR,
        )
        return
    yield from _dot(asked, needed, "four pieces")


def _dot(asked: Asked, needed: float, between: str) -> Iterator[Finding]:
    """Yields that the dot is not of the side that its place asks for; none goes in that is larger than that and two
    joints."""
    side, joint = asked.sizes["dot"][0], asked.joint
    if side >= needed + 2 * joint - RANK_STEP and side > needed + RANK_STEP:
        yield asked.finding(
            IMPOSSIBLE,
            f"a dot of {asked.text(side)} between {between} that leave {asked.text(needed + 2 * joint)} for it",
            f"a dot of {asked.text(needed)}",
            f"dot must be {asked.text(needed)} square",
            Severity.ERROR,
        )
    elif abs(side - needed) > CLOSES:
        yield asked.finding(
            CODE,
            f"the dot of {asked.text(side)} does not close: the joints round it come to "
            f"{asked.text(joint + (needed - side) / 2)}",
            f"joints of {asked.text(joint)}",
            f"dot must be {asked.text(needed)} square",
        )


def five_fold(asked: Asked) -> Iterator[Finding]:
    """Yields that the modules of the two rhombs have not one side, and the side at which they would."""
    wide, narrow = asked.sizes[WIDE][0], asked.sizes[NARROW][0]
    needed = narrow_side(wide, asked.joint)
    over = narrow - needed
    if over >= asked.joint - RANK_STEP and over > RANK_STEP:
        yield asked.finding(
            IMPOSSIBLE,
            f"narrow rhombs of {asked.text(narrow)} beside wide ones of {asked.text(wide)}: they lie on each other",
            f"a side of {asked.text(needed)}",
            f"narrow must be {asked.text(needed)} along a side",
            Severity.ERROR,
        )
    elif abs(over) > CLOSES:
        yield asked.finding(
            CODE,
            f"narrow rhombs of {asked.text(narrow)} do not close with wide ones of {asked.text(wide)}: the joints "
            f"round them are {asked.text(abs(over))} out of line",
            f"a side of {asked.text(needed)}, so that the joints line through",
            f"narrow must be {asked.text(needed)} along a side",
        )


def square_and_dot(asked: Asked) -> Iterator[Finding]:
    """Yields that a dot leaves no side of the square."""
    side, dot = asked.size[0], asked.sizes["dot"][0]
    most = (side + asked.joint) * 0.5**0.5 - asked.joint
    if dot >= most - RANK_STEP:
        yield asked.finding(
            IMPOSSIBLE,
            f"a dot of {asked.text(dot)} between squares of {asked.text(side)}: the clipped corners meet",
            f"a dot under {asked.text(most)}",
            "take a smaller dot",
            Severity.ERROR,
        )


def long_hexagon(asked: Asked) -> Iterator[Finding]:
    """Yields that the points meet."""
    half = radians(float(asked.values["corner"])) / 2
    points = (asked.size[1] + asked.joint) / tan(half) - asked.joint / sin(half)
    if points >= asked.size[0] - RANK_STEP:
        yield asked.finding(
            IMPOSSIBLE,
            f"two points of {asked.values['corner']:g} degrees take {asked.text(points)} of a length of "
            f"{asked.text(asked.size[0])}",
            "some side between the points",
            "measure the angle of a point again, or the length from point to point",
            Severity.ERROR,
        )


def three_sizes(asked: Asked) -> Iterator[Finding]:
    """Yields which sizes do not fit the module."""
    yield from _modular(asked, THREE_SIZES.spans)


def four_sizes(asked: Asked) -> Iterator[Finding]:
    """Yields which sizes do not fit the module."""
    yield from _modular(asked, FOUR_SIZES.spans)


def ashlar(asked: Asked) -> Iterator[Finding]:
    """Yields which sizes do not fit the module."""
    yield from _modular(asked, SPANS)


def _modular(asked: Asked, spans: Spans) -> Iterator[Finding]:
    unit = module(asked.sizes, spans, asked.joint)
    wrong = []
    nominal = asked.joint > 0
    base = min(side / count for kind, span in spans for side, count in zip(asked.sizes[kind], span, strict=True))
    for kind, span in spans:
        size = asked.sizes[kind]
        needed: Size = (span[0] * unit - asked.joint, span[1] * unit - asked.joint)
        if max(abs(needed[0] - size[0]), abs(needed[1] - size[1])) > CLOSES:
            wrong.append((kind, size, needed))
        nominal &= all(abs(side - count * base) <= RANK_STEP for side, count in zip(size, span, strict=True))
    if not wrong:
        return
    named = ", ".join(f"{kind} {_by(asked, size)}" for kind, size, _ in wrong)
    remedy = "; ".join(f"{kind} must be {_by(asked, needed)}" for kind, _, needed in wrong)
    yield asked.finding(
        CODE,
        f"the sizes do not close with a joint of {asked.text(asked.joint)}: {named} in a module of {asked.text(unit)}",
        "every side a number of modules less a joint",
        remedy + (f"; {OFF_THE_BOX}" if nominal else ""),
    )


def _by(asked: Asked, size: Size) -> str:
    return f"{asked.text(size[0])} x {asked.text(size[1])}"


def mosaic(asked: Asked) -> Iterator[Finding]:
    """Yields that chips and joints do not make up the sheet, so that the joints between sheets will show."""
    chip, count = asked.values.get("chip"), int(asked.values["chips"])
    if chip is None:
        return
    needed = length_for(float(chip), count, asked.joint)
    if abs(needed - asked.size[0]) > CLOSES * count:
        joint = (asked.size[0] - count * float(chip)) / max(count - 1, 1)
        yield asked.finding(
            CODE,
            f"{count} chips of {asked.text(float(chip))} with joints of {asked.text(asked.joint)} make "
            f"{asked.text(needed)}, and a sheet is {asked.text(asked.size[0])}",
            "the joint between sheets as in them, or every sheet shows",
            f"lay the sheets with a joint of {asked.text(joint)}" if joint > 0 else "measure a chip and a sheet again",
        )


def planks(asked: Asked) -> Iterator[Finding]:
    """Yields that no joints can keep so far apart."""
    lengths = asked.values.get("lengths") or (asked.size[0],)
    stagger = asked.values.get("stagger")
    kept = plank_stagger(asked.size, lengths) if stagger is None else float(stagger)
    yield from _stagger(asked, kept, min(lengths))


def setts(asked: Asked) -> Iterator[Finding]:
    """Yields that no joints can keep so far apart."""
    stagger = asked.values.get("stagger")
    kept = sett_stagger(asked.size) if stagger is None else float(stagger)
    yield from _stagger(asked, kept, asked.size[0] * (1 - float(asked.values["vary"])))


def _stagger(asked: Asked, kept: float, shortest: float) -> Iterator[Finding]:
    # Beside a joint `kept` is closed either way, and half of it about the joint two rows off.
    most = (shortest + asked.joint) / 3
    if kept > most:
        yield asked.finding(
            IMPOSSIBLE,
            f"joints of neighbouring rows {asked.text(kept)} apart at least, in pieces as short as "
            f"{asked.text(shortest)}",
            f"a stagger of {asked.text(most)} or less, a third of the shortest piece and its joint: two rows off half "
            "of it is kept too",
            "write a smaller stagger, or leave out the shortest pieces",
            Severity.ERROR,
        )
