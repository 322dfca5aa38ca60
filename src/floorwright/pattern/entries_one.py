"""Entries of the catalogue: patterns of equal pieces."""

from fractions import Fraction
from functools import partial
from typing import Final

from floorwright.pattern import closure
from floorwright.pattern.entry import Kind, Parameter, Pattern, by_length, by_size
from floorwright.pattern.herringbone import chevron, herringbone
from floorwright.pattern.mosaic import mosaic_sheets
from floorwright.pattern.polygons import WAYS, fish_scale, hexagon, long_hexagon, rhombus, triangle, tumbling_cubes
from floorwright.pattern.rows import SHIFTS, brick_bond, grid, soldier_courses
from floorwright.pattern.weave import basketweave

ABREAST: Final = Parameter(key="abreast", meaning="pieces side by side in a block", default=2, least=2, most=12)
SQUARE_OR_DIAGONAL: Final = "0 (square to the wall) and 45 (diagonal); say which"
ACROSS_FLATS: Final = "length, across the flats"


ONE_SIZE: Final[tuple[Pattern, ...]] = (
    Pattern(
        name="grid",
        says="rows and columns, every joint running through",
        make=by_size(grid),
        lines="rows and columns, down the middle of the joints",
        angles="any; 0 straight, 45 on the diagonal",
        cautions=("Every run of joints shows: a line that wanders or a tile that varies in size has nowhere to hide.",),
        group="p4mm",
        vertices="4.4.4.4",
    ),
    Pattern(
        name="brick bond",
        says="courses, each shifted on the one below by a part of a piece",
        make=by_size(brick_bond),
        parameters=(
            Parameter(key="fraction", meaning="the part that each course is shifted by", default=Fraction(1, 2)),
            Parameter(key="shift", meaning="which way courses are shifted", default="right", choices=SHIFTS),
        ),
        lines="courses down the middle of the joints; perps, each for one course in two (or three, four)",
        angles="any; 0 along the wall, 90 up it, 45 on the diagonal",
        cautions=(
            "Half bond on a long tile shows lippage: where its side is over 15 in (381 mm) keep to a third unless the "
            "maker says otherwise (ANSI A108.02), and have a mock-up approved.",
            "Measure the shift with the joint in it: a third of 600 + 3 is 201.",
        ),
        group="c2mm",
    ),
    Pattern(
        name="herringbone",
        says="pieces end to side in a zigzag",
        make=by_size(herringbone),
        parameters=(Parameter(key="abreast", meaning="pieces side by side in each arm", default=1, least=1, most=4),),
        check=closure.herringbone,
        closes="always; ends and sides line through where L = k W + (k - 1) J",
        lines="axes of the zigzag, and either side of each a line that the leading corners touch",
        angles=SQUARE_OR_DIAGONAL,
        cautions=(
            "Square or diagonal to the wall: agree it on paper before anything is ordered.",
            "It creeps: keep the leading corners on their two lines, row after row.",
            "A wall that cuts across the zigzag makes small triangles: set a border or move the axis.",
        ),
        group="p2gg",
        stands=True,
    ),
    Pattern(
        name="double herringbone",
        says="herringbone in pairs: two pieces side by side in each arm",
        make=by_size(herringbone),
        parameters=(Parameter(key="abreast", meaning="pieces side by side in each arm", default=2, least=2, most=4),),
        check=closure.herringbone,
        closes="always; ends and sides line through where L = k (2 W + J) + (k - 1) J",
        lines="axes of the zigzag, and either side of each a line that the leading corners touch",
        angles=SQUARE_OR_DIAGONAL,
        cautions=("Square or diagonal to the wall: agree it on paper before anything is ordered.",),
        group="p2gg",
        stands=True,
    ),
    Pattern(
        name="chevron",
        says="columns of mitred pieces that climb right and left by turns, their points in line",
        make=by_size(chevron),
        kinds=(
            Kind(name="right-hand", measured="length along the long side, and width"),
            Kind(name="left-hand", measured="length along the long side, and width", own=False),
        ),
        parameters=(
            Parameter(
                key="mitre", meaning="degrees between the long side and the mitred end", default=45.0, least=20, most=80
            ),
        ),
        closes="always, if every mitre is true",
        lines="columns, down the middle of the joints; points, square across",
        angles=SQUARE_OR_DIAGONAL,
        cautions=(
            "Right-hand and left-hand pieces are two goods: count and order both.",
            "A mitre half a degree out opens every point joint: check ten pieces against a bevel first.",
        ),
        group="p2mg",
        pieces=2,
        stands=True,
    ),
    Pattern(
        name="basketweave",
        says="square blocks of pieces side by side, turned by a quarter from block to block",
        make=by_size(basketweave),
        parameters=(ABREAST,),
        check=closure.basketweave,
        closes="where L = k W + (k - 1) J",
        lines="rows and columns of blocks, down the middle of the joints",
        angles="0 or 45",
        cautions=("Box sizes do not close: 2 x 100 and a joint of 3 is 203, not 200.",),
        group="p4gm",
    ),
    Pattern(
        name="double basketweave",
        says="basketweave with two lengths end to end in each block",
        make=by_size(partial(basketweave, long=2)),
        parameters=(Parameter(key="abreast", meaning="pieces side by side in a block", default=4, least=2, most=24),),
        check=closure.double_basketweave,
        closes="where 2 L + J = k W + (k - 1) J",
        lines="rows and columns of blocks, down the middle of the joints",
        angles="0 or 45",
        cautions=("Box sizes do not close.",),
        group="p4gm",
    ),
    Pattern(
        name="soldier courses",
        says="courses of stretchers in half bond with a course of pieces on end after every so many",
        make=by_size(soldier_courses),
        parameters=(Parameter(key="courses", meaning="courses of stretchers between", default=2, least=1, most=12),),
        check=closure.soldier_courses,
        closes="where L = k W + (k - 1) J",
        lines="courses, down the middle of the joints; perps at half a stretcher",
        angles="any; 0 along the wall, 90 up it",
        cautions=("Box sizes do not close: the perps of the soldiers walk away from those of the stretchers.",),
        group="p2mm",
    ),
    Pattern(
        name="hexagon",
        says="hexagons, three round every meeting",
        make=by_length(hexagon),
        kinds=(Kind(name="", measured=ACROSS_FLATS),),
        parameters=(Parameter(key="way", meaning="what stands up the pattern", default="point up", choices=WAYS),),
        lines="rows through the middles of the tiles; flats, down the joints of every second row",
        angles="0 or 30",
        cautions=(
            "Measure across the flats, not the points.",
            "Only one pair of walls can take straight cuts along the rows: the other two get points and halves.",
        ),
        group="p6mm",
        vertices="6.6.6",
    ),
    Pattern(
        name="elongated hexagon",
        says="long hexagons lying along the rows, their points between the next two",
        make=by_size(long_hexagon),
        kinds=(Kind(name="", measured="length point to point, and width between the long sides"),),
        parameters=(
            Parameter(key="corner", meaning="degrees of the angle at a point", default=90.0, least=40, most=150),
        ),
        check=closure.long_hexagon,
        lines="rows at half a width; shoulders, square across",
        angles="0 or 90",
        cautions=("The angle of the points is the maker's: measure it, or the joints at the points open.",),
        group="c2mm",
    ),
    Pattern(
        name="triangle",
        says="triangles of three equal sides, six round every meeting",
        make=by_length(triangle),
        kinds=(Kind(name="", measured="length of a side"),),
        lines="three families, down the middle of the joints",
        angles="0 or 30",
        cautions=("Six points meet: a joint that grows at one of them grows all the way down its line.",),
        group="p6mm",
        vertices="3.3.3.3.3.3",
    ),
    Pattern(
        name="rhombus",
        says="rhombuses in rows, all the same way",
        make=by_length(rhombus),
        kinds=(Kind(name="", measured="length of a side"),),
        parameters=(Parameter(key="corner", meaning="degrees of the sharp angle", default=60.0, least=20, most=89),),
        lines="rows and slants, down the middle of the joints",
        angles="any",
        cautions=("Sharp points chip: cut them wet and slowly, and turn them away from the threshold.",),
        group="c2mm",
    ),
    Pattern(
        name="tumbling cubes",
        says="three rhombuses of 60 degrees round a point, in three shades a heap of cubes",
        make=by_length(tumbling_cubes),
        kinds=(
            Kind(name="right", measured="length of a side"),
            Kind(name="top", measured="length of a side", own=False),
            Kind(name="left", measured="length of a side", own=False),
        ),
        lines="rows through the middles of the cubes; edges, square across",
        angles="0 or 30",
        cautions=("Three shades: sort them before laying, one wrong rhombus shows across the room.",),
        group="p6mm",
    ),
    Pattern(
        name="fish scale",
        says="round tops, each row set in the hollows of the one below",
        make=by_length(fish_scale),
        kinds=(Kind(name="", measured="length, from side to side"),),
        lines="rows through the widest of each; points, up the middle of each column",
        angles="0, tops away from the door, or 180",
        cautions=("Cut one course along the first wall from a template: every other course hangs on it.",),
        group="cm",
    ),
    Pattern(
        name="mosaic sheets",
        says="sheets of mosaic laid as units, with the same joint between them as in them",
        make=by_size(mosaic_sheets),
        kinds=(Kind(name="", measured="length and width of a sheet, from chip to chip"),),
        parameters=(
            Parameter(key="chips", meaning="chips along a sheet", default=10, least=1, most=200),
            Parameter(key="chip", meaning="length of a chip, for the closure check", shapes=False),
        ),
        check=closure.mosaic,
        closes="where a sheet is n chips and n - 1 joints",
        lines="rows and columns of sheets, down the middle of the joints",
        angles="any",
        cautions=(
            "Sheets show where the joint between them is not the joint in them: dry-lay two and look along them.",
            "Move the cut to a joint between chips wherever it falls near one.",
        ),
        group="p4mm",
        vertices="4.4.4.4",
    ),
)
