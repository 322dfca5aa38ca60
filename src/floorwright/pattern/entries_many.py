"""Entries of the catalogue: patterns of pieces of several sizes."""

from functools import partial
from typing import Final

from floorwright.pattern import closure
from floorwright.pattern.entry import Kind, Parameter, Pattern, by_size
from floorwright.pattern.fivefold import NARROW, WIDE, five_fold
from floorwright.pattern.modular import FOUR_SIZES, THREE_SIZES, Modular, modular
from floorwright.pattern.polygons import octagon_and_dot, square_and_dot
from floorwright.pattern.weave import two_rectangles, windmill

RUN: Final = Parameter(key="run_most", meaning="the longest straight joint that is no fault", shapes=False)
MODULES: Final = "every side a number of modules less a joint; the module is the small piece and a joint"
ON_MODULES: Final = "lines of the module both ways"
ANY_ANGLE: Final = "0, 45 or any"
SORT: Final = "Lay out one repeat dry and count it: a size short stops the job."


def _kinds(form: Modular) -> tuple[Kind, ...]:
    return tuple(Kind(name=kind, measured=f"{span[0]} x {span[1]} modules") for kind, span in form.spans)


MANY: Final[tuple[Pattern, ...]] = (
    Pattern(
        name="octagon and dot",
        says="octagons with a small square between every four",
        make=by_size(octagon_and_dot, "octagon", "dot"),
        kinds=(
            Kind(name="octagon", measured="length, across the flats"),
            Kind(name="dot", measured="length of a side"),
        ),
        check=closure.octagon,
        closes="where the dot is 0.4142 (A + J) - J, A across the flats of the octagon",
        lines="rows and columns through the dots",
        angles="0 or 45",
        cautions=("A dot too small swims in its joints: ask for octagon and dot as a set, and measure both.",),
        group="p4mm",
        pieces=2,
        vertices="4.8.8",
    ),
    Pattern(
        name="square and dot",
        says="squares with their corners clipped for a small dot that stands on its point",
        make=by_size(square_and_dot, "square", "dot"),
        kinds=(Kind(name="square", measured="length of a side"), Kind(name="dot", measured="length of a side")),
        check=closure.square_and_dot,
        closes="with any dot, since the corners are clipped to it",
        lines="rows and columns through the dots",
        angles="0 or 45",
        cautions=(
            "Clip all corners with one stop on the saw: dust, so wet or extracted, and a mask; eyes too.",
            "Tiles at walls keep the corners that meet no dot.",
        ),
        group="p4mm",
        pieces=2,
    ),
    Pattern(
        name="five-fold rhombs",
        says="wide and narrow rhombs in stars of five, no two neighbourhoods quite alike",
        make=five_fold,
        kinds=(Kind(name=WIDE, measured="length of a side"), Kind(name=NARROW, measured="length of a side")),
        check=closure.five_fold,
        closes="where a side of the narrow one is 0.650 J shorter than one of the wide one",
        lines="rows and files of stars, through the middle of every star that repeats",
        angles="any; a star faces up at 0",
        cautions=(
            "Lay it from a plan, star by star: laid by eye it comes to a gap that no rhomb fits.",
            "Sharp points chip: cut them wet and slowly.",
            "It is quasi-periodic but for a repeat of 94 pieces, 9.47 by 8.06 sides and their joints.",
        ),
        group="pg",
        pieces=2,
    ),
    Pattern(
        name="pinwheel",
        says="large squares, each with a small one at its corner, all turning the same way",
        make=by_size(partial(two_rectangles, name="pinwheel"), "large", "small"),
        kinds=(Kind(name="large"), Kind(name="small")),
        lines="lines through the corners of the large squares, both ways, square to each other",
        angles="any; the rows of corners run askew to the tiles",
        cautions=("The tiles lie square to the wall but the repeat does not: snap its own lines, not the walls'.",),
        group="p4",
        pieces=2,
    ),
    Pattern(
        name="windmill",
        says="four rectangles round a square dot",
        make=by_size(windmill, "sail", "dot"),
        kinds=(Kind(name="sail"), Kind(name="dot", measured="length of a side")),
        check=closure.windmill,
        closes="where the dot is L - W - J",
        lines="rows and columns of blocks, down the middle of the joints",
        angles="0 or 45",
        cautions=("All blocks turn the same way: one turned back stops the joints.",),
        group="p4",
        pieces=2,
    ),
    Pattern(
        name="modular, two sizes",
        says="two sizes of rectangle, each row stepping up by the smaller one",
        make=by_size(partial(two_rectangles, name="modular, two sizes"), "large", "small"),
        kinds=(Kind(name="large"), Kind(name="small")),
        parameters=(RUN,),
        lines="lines through the corners of the large pieces, both ways",
        angles=ANY_ANGLE,
        cautions=(SORT,),
        group="p2",
        pieces=2,
    ),
    Pattern(
        name="modular, three sizes",
        says="large, long and small in a repeat of one each, no joint running over five modules",
        make=partial(modular, "modular, three sizes", THREE_SIZES),
        kinds=_kinds(THREE_SIZES),
        parameters=(RUN,),
        check=closure.three_sizes,
        closes=MODULES,
        lines=ON_MODULES,
        angles=ANY_ANGLE,
        cautions=("Box sizes ignore the joint: 400 against 200 + 3 + 200 is 3 short.", SORT),
        group="p2",
        pieces=3,
    ),
    Pattern(
        name="modular, four sizes",
        says="largest, large, long and small in a repeat of one each, no joint running over four modules",
        make=partial(modular, "modular, four sizes", FOUR_SIZES),
        kinds=_kinds(FOUR_SIZES),
        parameters=(RUN,),
        check=closure.four_sizes,
        closes=MODULES,
        lines=ON_MODULES,
        angles=ANY_ANGLE,
        cautions=("Box sizes ignore the joint: 600 against 2 x 300 + 12 is 12 short.", SORT),
        group="p2",
        pieces=4,
    ),
)
