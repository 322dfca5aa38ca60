"""A made-up job, drawn as the sheets draw theirs: a crooked room with tiles, control lines, dimensions and tables."""

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from floorwright.draw.paper import page_space
from floorwright.draw.scale import fit_scale
from floorwright.draw.sheet import Beside, Blanks, Block, Column, Pack, Prose, Sheet, Steps, Table
from floorwright.draw.style import Pen, Size, Tone
from floorwright.draw.view import Cross, Curve, Dimension, Fill, Item, Line, Point, Running, Text, View

CORNERS = ((0.0, 0.0), (3200.0, 0.0), (3185.0, 4000.0), (12.0, 3960.0))
TILE, JOINT, GAP = 447.0, 3.0, 5.0


def clip(points: list[Point], corners: tuple[Point, ...]) -> list[Point]:
    """Returns a convex polygon cut by a convex anticlockwise outline (Sutherland and Hodgman)."""
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        sides = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in points]
        kept: list[Point] = []
        for i, (x, y) in enumerate(points):
            j = (i + 1) % len(points)
            if sides[i] >= 0:
                kept.append((x, y))
            if sides[i] * sides[j] < 0:
                t = sides[i] / (sides[i] - sides[j])
                kept.append((x + t * (points[j][0] - x), y + t * (points[j][1] - y)))
        points = kept
        if not points:
            break
    return points


def tiles() -> list[Item]:
    """Returns 8 x 9 tiles from the middle of the room, cut at the walls, numbered."""
    items: list[Item] = []
    label = 0
    for row in range(-5, 5):
        for column in range(-4, 5):
            x, y = 1600 + column * (TILE + JOINT) + JOINT / 2, 1990 + row * (TILE + JOINT) + JOINT / 2
            whole = [(x, y), (x + TILE, y), (x + TILE, y + TILE), (x, y + TILE)]
            piece = clip(whole, ((5, 5), (3194, 5), (3180, 3994), (17, 3955)))
            if not piece:
                continue
            cut = piece != whole
            label += 1
            middle = (sum(p[0] for p in piece) / len(piece), sum(p[1] for p in piece) / len(piece))
            narrow = min(max(p[i] for p in piece) - min(p[i] for p in piece) for i in (0, 1))
            tone = (Tone.UNDER if label in (1, 8, 80) else Tone.CUT) if cut else Tone.TILE
            items += [
                Fill(rings=(tuple(piece),), tone=tone),
                Line(points=tuple(piece), pen=Pen.SAWN if cut else Pen.FACTORY, closed=True),
            ]
            if narrow > 60:
                items.append(Text(at=middle, text=str(label), size=Size.SMALL, halo=True))
    return items


def control() -> list[Item]:
    """Returns two control lines with the arcs that make them square, and their marks."""
    items: list[Item] = [
        Line(points=((1600, -60), (1600, 4060)), pen=Pen.CONTROL),
        Line(points=((-60, 1990), (3260, 1990)), pen=Pen.CONTROL),
        Cross(at=(1600, 1990), label="O"),
        Cross(at=(600, 1990), label="P", away=(-0.7, 0.7)),
        Cross(at=(2600, 1990), label="Q"),
    ]
    for x, sign in ((600.0, 1), (2600.0, -1)):
        for up in (1, -1):
            angle = math.atan2(up * math.sqrt(1500**2 - 1000**2), sign * 1000)
            items.append(Curve(centre=(x, 1990), radius=1500, start=angle - 0.08, end=angle + 0.08, pen=Pen.ARC))
    return items


def room(scale: float = 25, *, name: str = "Room and tiles", tiled: bool = True) -> View:
    """Returns the view of the room, window with room for the dimensions."""
    border = 21 * scale
    column = Fill(rings=(((2400, 700), (2700, 700), (2700, 1000), (2400, 1000)),), tone=Tone.OBSTACLE)
    items: list[Item] = [
        *(tiles() if tiled else ()),
        column,
        Line(points=column.rings[0], pen=Pen.OBSTACLE, closed=True),
        Line(points=CORNERS, pen=Pen.WALL, closed=True),
        *control(),
        Dimension(start=CORNERS[0], end=CORNERS[1], offset=-14, text="3200", size=Size.FIGURE),
        Dimension(start=CORNERS[1], end=CORNERS[2], offset=-10, text="4000", size=Size.FIGURE),
        Dimension(start=(2400, 700), end=(2700, 700), offset=-3, text="300"),
        Running(
            zero=CORNERS[3],
            marks=tuple(((x, 3960 + x * 0.0126), f"{x - 12:g}") for x in (250.0, 253.0, 700, 1600, 2050, 2953, 3185)),
            offset=4,
        ),
        Text(at=(10, 2000), text="wall W", angle=math.pi / 2, shift=(0, 4)),
        Text(at=(1600, 0), text="wall S", shift=(0, -4)),
    ]
    window = (-border, -border, 3200 + border, 4000 + border + 3 * scale)
    described = "The room with 72 tiles, the control lines and the running dimensions of wall N."
    return View(name=name, described=described, scale=scale, window=window, items=tuple(items))


def cut_table(rows: int, *, ticks: bool = True) -> Table:
    """Returns a made-up cut list."""
    heads = (
        Column(heading="Piece", align="right"),
        Column(heading="Thin end", unit="mm", align="right", marked=True),
        Column(heading="Fat end", unit="mm", align="right", marked=True),
        Column(heading="Where"),
    )
    lines = tuple(
        (f"{i}", f"{87 + i / 2:g}", f"{90.5 + i:g}", f"wall {'NESW'[i % 4]}, {i % 9 + 1} from the corner")
        for i in range(1, rows + 1)
    )
    return Table(columns=heads, rows=lines, heading="Cuts in the order in which they are laid", ticks=ticks)


def sheets() -> tuple[Sheet, ...]:
    """Returns sheets with every kind of block."""
    steps = Steps(
        heading="Square off the first line",
        lines=(
            "From O mark P and Q on the first line, 1000 to each side.",
            "From P strike a short arc of 1500 on each side of the line.",
            "From Q strike the same; the crossings are R and S.",
            "Snap R to S. It passes within 0.5 of O, or start again.",
        ),
    )
    inches = Table(
        heading="Marks on wall N, all from corner NW",
        columns=(Column(heading="Mark"), Column(heading="From NW", unit="in", align="right", marked=True)),
        rows=(("A", "7 ¹¹⁄₁₆″"), ("B", "3′-4 ¹⁄₂″"), ("C", "40″"), ("D", "101 ³⁄₃₂″")),
    )
    blocks: tuple[Block, ...] = (
        Prose(lines=("All figures from corner SW.",), tone="quiet"),
        Beside(
            left=(room(50, name="Small plan", tiled=False),),
            right=(
                Prose(heading="Decided", lines=("Joint 3 mm.", "Tile on both centre lines.")),
                Prose(lines=("The cut at wall E is 87.5 mm, over half a tile.",), tone="agrees"),
                Prose(lines=("Is the skirting coming off wall N? It hides 12 mm.",), tone="doubt"),
                Prose(lines=("Two cuts are under the limit of 149 mm.",), tone="limit"),
            ),
            share=0.66,
        ),
        Prose(
            tone="caution",
            heading="Before you cut",
            lines=("Silica dust: cut wet, or with extraction, and wear a mask.", "Look for pipes and cables."),
        ),
        inches,
        Blanks(heading="Agreed", labels=("Signature", "Name", "Date", "For the setter"), columns=2),
    )
    return (
        Sheet(key="first", title="A kitchen floor of 72 tiles, full tiles at the door", blocks=blocks),
        Sheet(key="layout", title="Lay these 72 pieces from the crossing at O, row by row", blocks=(room(),)),
        Sheet(key="steps", title="Square the second line by compass, in four steps", blocks=(steps,)),
        Sheet(key="cuts", title="Saw these 60 pieces", blocks=(cut_table(60),), lists=(("cut-list", cut_table(60)),)),
        Sheet(
            key="control", title="Snap two lines", blocks=(room(50, name="Control lines", tiled=False),), landscape=True
        ),
    )


@pytest.fixture(scope="session")
def pack() -> Pack:
    """A metric pack on A4."""
    return Pack(
        job="Larch Row kitchen",
        client="A. Client",
        by="set out by",
        revision="A",
        date="2026-03-02",
        units="mm",
        paper="A4",
        words="UK",
        sheets=sheets(),
    )


@pytest.fixture(scope="session")
def one_sheet(pack: Pack) -> Callable[..., Pack]:
    """A function from blocks to a pack of one sheet."""

    def make(*blocks: Block, title: str = "One sheet", landscape: bool = False, **changes: Any) -> Pack:
        return replace(pack, sheets=(Sheet(key="layout", title=title, blocks=blocks, landscape=landscape),), **changes)

    return make


@pytest.fixture(scope="session")
def room_view() -> View:
    """The crooked room at 1:25, tiled."""
    return room()


@pytest.fixture(scope="session")
def true_room() -> View:
    """A rectangle of 3200 x 4000 at 1:20 and nothing else."""
    corners = ((0.0, 0.0), (3200.0, 0.0), (3200.0, 4000.0), (0.0, 4000.0))
    walls = Line(points=corners, pen=Pen.WALL, closed=True)
    assert fit_scale((3200, 4000), page_space("A4")) == 20
    return View(name="Room", described="A room.", scale=20, window=(-100, -100, 3300, 4100), items=(walls,))
