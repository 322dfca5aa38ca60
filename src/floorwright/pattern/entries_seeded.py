"""Entries of the catalogue: patterns laid at random by rules."""

from typing import Final

from floorwright.pattern import closure
from floorwright.pattern.ashlar import random_ashlar
from floorwright.pattern.entries_many import MODULES, ON_MODULES, RUN, SORT
from floorwright.pattern.entry import Kind, Parameter, Pattern, by_size
from floorwright.pattern.seeded import planks, setts

SEED: Final = Parameter(key="seed", meaning="any whole number: the same one lays the same floor", default=1, least=0)
STAGGER: Final = Parameter(key="stagger", meaning="how far joints of neighbouring rows keep apart at least")


SEEDED: Final[tuple[Pattern, ...]] = (
    Pattern(
        name="planks",
        says="rows of planks, their ends at random by rules",
        make=by_size(planks),
        parameters=(
            Parameter(
                key="lengths",
                meaning="of the planks, as many of each; without them all are as long as the goods",
                default=(),
            ),
            STAGGER,
            Parameter(
                key="end_least",
                meaning="the shortest piece at a row's end that is no fault; without it as long as a plank is wide",
            ),
            SEED,
        ),
        check=closure.planks,
        closes="with any sizes, if the joints can keep the stagger",
        lines="rows, down the middle of the joints",
        angles="any; 0 along the wall, towards the light by custom",
        cautions=(
            "Follow the list row by row: random laid by eye turns into steps.",
            "No end joint may line up with one two rows back.",
            "Several lengths are counted each by itself: ask whether a box holds as many of each.",
        ),
        group="p1",
    ),
    Pattern(
        name="setts in rows",
        says="rows of setts of one width and mixed lengths, joints broken",
        make=by_size(setts),
        parameters=(
            Parameter(
                key="vary",
                meaning="the part of the length that setts differ by, either way",
                default=0.2,
                least=0,
                most=0.5,
            ),
            STAGGER,
            SEED,
        ),
        check=closure.setts,
        closes="with any sizes, if the joints can keep the stagger",
        lines="rows, down the middle of the joints",
        angles="0 across the traffic, 45 on the diagonal",
        cautions=("Sort the setts by width first: a row is as straight as its widest sett.",),
        group="p1",
        pieces=5,
    ),
    Pattern(
        name="random ashlar",
        says="three sizes on one module at random, no four corners meeting",
        make=random_ashlar,
        kinds=(
            Kind(name="large", measured="2 x 2 modules"),
            Kind(name="long", measured="2 x 1 modules"),
            Kind(name="small", measured="1 x 1 module"),
        ),
        parameters=(SEED, RUN),
        check=closure.ashlar,
        closes=MODULES,
        lines=ON_MODULES,
        angles="0, 45 or any",
        cautions=("Box sizes ignore the joint.", SORT),
        group="p1",
        pieces=3,
    ),
)
