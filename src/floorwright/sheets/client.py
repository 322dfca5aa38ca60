"""The page that the client signs: the floor to scale, and what cannot be argued about later."""

import math
from dataclasses import replace

from floorwright.draw.paper import GUTTER, body_space, title_height
from floorwright.draw.sheet import Blanks, Block, Prose, Sheet
from floorwright.findings import Severity
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.pattern.rings import Rings
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import BLOCK, MOST_UNDER, arrange, beside_or_under, prose_height
from floorwright.sheets.plan import door_side, floor_items, obstacle_items, outward, plan_box, wall_items, wall_names
from floorwright.sheets.rooms import room_names
from floorwright.sheets.tiles import tile_items, zone_items
from floorwright.sheets.words import Words, counted, listed, sentence, told, words_of
from floorwright.sheets.zones import border_widths, zone_name, zones_of

MARGIN = 8.0
NAMES = 3.4
SIGNED = ("Client", "Date", "Set out by", "Date")
OWN = "layout-own-option"
MOST_UNDER_ZONES = 160.0
"""mm on paper that the words may take under the picture where several zones are agreed: it is one page to sign."""
FEW_WALLS, MOST_WALLS = 3, 8
"""Walls whose cuts are named: of one zone of several, and of one alone."""
STRAIGHT = math.radians(0.5)


def client_sheet(solution: Solution) -> Sheet:
    """Returns the client's page, the door at the foot of the picture; the solution must have a layout."""
    room, region = solution.room, solution.region
    assert room is not None
    assert region is not None
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    revision = f", revision {solution.job.revision}" if solution.job.revision else ""
    title = f"This is the floor that we agree{revision}."
    lines = [line for zone in zones_of(solution.layouts) for line in _agreed(zone, solution, figures, words)]
    said: tuple[Block, ...] = (Prose(heading="Agreed", lines=tuple(lines)), *_advised(solution))
    words_beside = (*said, Blanks(labels=SIGNED, columns=2))
    place = beside_or_under(
        plan_box(region),
        words_beside,
        paper=solution.job.paper,
        imperial=figures.imperial,
        title=title,
        margin=MARGIN,
        under=prose_height(words_beside, body_space(solution.job.paper)[0]) + BLOCK,
        most_under=MOST_UNDER if len(zones_of(solution.layouts)) == 1 else MOST_UNDER_ZONES,
        turn=door_down(room),
    )
    tiles = [item for layout in solution.layouts for item in tile_items(layout)]
    view = place.view(
        "client",
        "Picture of the floor to scale, seen from the door.",
        (
            *floor_items(room, region),
            *tiles,
            *zone_items(solution.layouts),
            *obstacle_items(room),
            *wall_items(room),
            *room_names(room),
            *wall_names(room, place, NAMES),
            *door_side(room, place, NAMES),
        ),
    )
    width, height = body_space(solution.job.paper, place.landscape)
    height -= title_height(title, width)
    foot = Blanks(labels=SIGNED, columns=2)
    if not place.beside or view.picture_size(figures.imperial)[1] + BLOCK + prose_height((foot,), width) <= height:
        blocks = arrange(place, view, said, (foot,))
    else:
        # Beside the picture a line is short for a signature: one over the other, if they find room.
        tall = (*said, Blanks(labels=SIGNED))
        fits = prose_height(tall, (width - GUTTER) * (1 - place.share)) <= height
        blocks = arrange(place, view, tall if fits else words_beside)
    return Sheet(key="client", title=title, blocks=blocks, landscape=place.landscape)


def door_down(room: Room) -> int:
    """Returns the quarter turns that bring the first opening to the foot of the paper."""
    if not room.openings:
        return 0
    _, (x, y) = outward(room, room.openings[0].wall)
    return round((-math.pi / 2 - math.atan2(y, x)) / (math.pi / 2)) % 4


def _agreed(zone: tuple[Layout, ...], solution: Solution, figures: Figures, words: Words) -> list[str]:
    """Returns what is agreed of one zone, its name before it where there are several."""
    room, layout = solution.room, zone[0]
    assert room is not None
    if layout.rings is not None:
        return _agreed_rings(layout, layout.rings, figures, words)
    joints = f"{words.joint}s {figures.entered(layout.chosen.joint, unit=True)} wide"
    several = len(zones_of(solution.layouts)) > 1
    if layout.is_border:
        tiles = f"{zone_name(layout)}: tiles {figures.size(*layout.cell.size)}, {joints}"
        return [sentence(tiles), sentence(f"its width: {border_widths(zone, figures)}")]
    pattern = f"{words.pattern(layout.cell.name)}, {direction(layout, room)}"
    return [
        sentence(f"{zone_name(layout)}: {pattern}" if several else pattern),
        f"Tiles {figures.goods(layout.cell)}.",
        sentence(joints),
        *([] if several else ["No border."]),
        *_small_cuts(layout, figures, FEW_WALLS if several else MOST_WALLS),
    ]


def _agreed_rings(layout: Layout, rings: Rings, figures: Figures, words: Words) -> list[str]:
    wide = f"{words.joint.capitalize()}s {figures.entered(rings.joint, unit=True)} wide"
    if not all(one.tapered for one in rings.rings):
        wide += f", up to {figures.entered(rings.joints.most, unit=True)} at the outside of whole pieces"
    return [
        sentence(f"{layout.zone}: {counted(len(rings.rings), 'ring' if rings.is_round else 'arc')}"),
        sentence(figures.goods(layout.cell)),
        sentence(wide),
    ]


def direction(layout: Layout, room: Room) -> str:
    """Returns in words how a pattern lies in the room: straight to a wall, diagonal to it, or turned by so much."""
    quarter = math.pi / 2
    best = None
    for wall in room.walls:
        (x, y), _ = outward(room, wall.name)
        turn = math.remainder(layout.chosen.placement.angle - math.atan2(y, x), quarter)
        if best is None or abs(turn) < abs(best[0]):
            best = (turn, wall.name)
    assert best is not None
    turn, _ = best
    if abs(turn) < STRAIGHT:
        return f"straight to wall {best[1]}"
    first = room.walls[0].name
    (x, y), _ = outward(room, first)
    turn = abs(math.remainder(layout.chosen.placement.angle - math.atan2(y, x), quarter))
    if abs(turn - quarter / 2) < STRAIGHT:
        return f"diagonal to wall {first}"
    return f"turned {math.degrees(turn):.1f}° to wall {first}"


def _small_cuts(layout: Layout, figures: Figures, most: int) -> list[str]:
    """Returns where the narrowest cuts are, by wall; of more walls than `most` how many there are."""
    walls = sorted(layout.chosen.walls, key=lambda wall: wall.thin / wall.tile)
    cut = [wall for wall in walls if wall.thin < wall.tile - figures.style.mm(1)]
    if not cut:
        return [f"The narrowest piece is {figures.cut(layout.chosen.worst, unit=True)}."]
    said = [f"wall {wall.wall} {_range(wall.thin, wall.fat, figures)}" for wall in cut[:most]]
    said += [f"{counted(len(cut) - most, 'wall')} wider"] if len(cut) > most else []
    unit = f" {figures.column}" if figures.column else ""
    return [sentence(f"cuts, narrowest first: {listed(said)}{unit}")]


def _range(thin: float, fat: float, figures: Figures) -> str:
    low, high = figures.cut(thin), figures.cut(fat)
    return low if low == high else f"{low} to {high}"


def _advised(solution: Solution) -> tuple[Prose, ...]:
    """Returns what the program advised against: every warning about the layout that stands, and an own choice of
    position beside the one recommended."""
    against = tuple(
        told(replace(finding, remedy=""))
        for layout in solution.layouts
        for finding in layout.findings
        if finding.severity is not Severity.NOTE or finding.code == OWN
    )
    if not against:
        return (Prose(heading="Advised against", lines=("Nothing.",)),)
    return (Prose(heading="Advised against", lines=against, tone="doubt"),)
