"""Patterns of a person's own: pieces drawn as polygons, with two repeat vectors."""

from collections.abc import Callable, Iterator, Mapping

import numpy as np
import shapely

from floorwright.findings import Finding, Severity
from floorwright.geometry.region import Points
from floorwright.pattern.cell import Anchor, Size, Sized, UnitCell
from floorwright.pattern.closing import closing, missed_corner
from floorwright.pattern.entry import Asked, Kind, Pattern
from floorwright.pattern.measured import Beside, beside, open_area
from floorwright.pattern.shape import set_in
from floorwright.tolerance import CLOSES, SLIVER_AREA

WITH_JOINTS = "with joints"
WITHOUT_JOINTS = "without joints"
"""How the pieces are drawn: at work size, apart; or touching, to be set in by half a joint each."""

REACH = 3.0
"""So many joints off, a piece no longer lies beside another."""

LEAST_REACH = 2.0
"""mm, instead of a joint where that is less."""

Drawn = tuple[tuple[str, Points], ...]
"""Kind and outline of every piece, mm."""


def custom_pattern(name: str, drawn: Drawn, repeat: Points, how: str) -> Pattern:
    """Returns the entry of a pattern that is drawn.

    Args:
        name: as the person calls it.
        drawn: its pieces; outlines either way round.
        repeat: (2, 2) mm, the two repeat vectors as rows.
        how: `with joints` or `without joints`.
    """
    pieces: Drawn = tuple((kind, _anticlockwise(outline)) for kind, outline in drawn)
    make = _maker(name, pieces, repeat, how)
    kinds = tuple(dict.fromkeys(kind for kind, _ in pieces))
    return Pattern(
        name=name,
        says="your own",
        make=make,
        kinds=tuple(Kind(name=kind, own=False) for kind in kinds),
        check=_checker(pieces, make, how),
        closes="as drawn",
        lines="none",
        angles="any",
        group="p1",
        pieces=len(pieces),
    )


def _anticlockwise(outline: Points) -> Points:
    return outline if shapely.LinearRing(outline).is_ccw else outline[::-1].copy()


def _maker(name: str, pieces: Drawn, repeat: Points, how: str) -> Callable[..., UnitCell]:
    kinds = tuple(kind for kind, _ in pieces)
    several = len(set(kinds)) > 1

    def make(_sizes: Mapping[str, Size], joint: float) -> UnitCell:
        by = joint / 2 if how == WITHOUT_JOINTS else 0.0
        outlines = tuple(set_in(outline, by) for _, outline in pieces)
        first = dict(zip(reversed(kinds), reversed(outlines), strict=True))
        return UnitCell(
            name=name,
            a=repeat[0],
            b=repeat[1],
            pieces=outlines,
            joint=joint,
            size=_extent(outlines[0]),
            lines=(),
            anchors=(
                Anchor(name="joint on centre", at=_low_corner(set_in(outlines[0], -joint / 2))),
                Anchor(name="tile on centre", at=outlines[0].mean(axis=0)),
            ),
            kinds=kinds if several else (),
            sizes=tuple(Sized(name=kind, size=_extent(first[kind])) for kind in dict.fromkeys(kinds))
            if several
            else (),
        )

    return make


def _low_corner(module: Points) -> Points:
    """The corner of a module nearest to its lower left: there joints meet, wherever the drawing has its zero."""
    return np.asarray(min(module, key=lambda corner: (round(float(corner.sum()), 6), round(float(corner[0]), 6))))


def _extent(outline: Points) -> Size:
    wide, high = np.ptp(outline, axis=0).tolist()
    return wide, high


def _checker(pieces: Drawn, make: Callable[..., UnitCell], how: str) -> Callable[[Asked], Iterator[Finding]]:
    def check(asked: Asked) -> Iterator[Finding]:
        cell = make(asked.sizes, asked.joint)
        pairs = beside(cell, REACH * max(asked.joint, LEAST_REACH))
        overlaps = [pair for pair in pairs if pair.overlap > SLIVER_AREA]
        if overlaps:
            first = overlaps[0]
            yield asked.finding(
                "pattern-overlap",
                f"{_named(pieces, first.piece, first.other)} of {cell.name} lie on each other, over "
                f"{first.overlap:.0f} mm²",
                "pieces beside each other",
                _closes_with(asked, cell) or "look at the corners and the repeat",
                Severity.ERROR,
            )
            return
        off = list(_widths(asked, cell, pieces, pairs, how))
        yield from off or _corners(asked, cell, pieces)
        left = 0.0 if off else open_area(cell, asked.joint)
        if left > SLIVER_AREA:
            yield asked.finding(
                "pattern-open",
                f"{left:.0f} mm² of each repeat of {cell.name} is neither piece nor joint",
                "pieces and joints that fill the repeat",
                "draw the piece that is missing, or look at the corners and the repeat",
            )
        yield from _goods(asked, cell)

    return check


def _named(pieces: Drawn, piece: int, other: int) -> str:
    return f"pieces {piece + 1} ({pieces[piece][0]}) and {other + 1} ({pieces[other][0]})"


def _widths(asked: Asked, cell: UnitCell, pieces: Drawn, pairs: tuple[Beside, ...], how: str) -> Iterator[Finding]:
    """Yields the joint that is farthest from its width, measured on the drawing."""
    off = [(max(abs(pair.least - asked.joint), abs(pair.most - asked.joint)), pair) for pair in pairs]
    worst, pair = max(off, key=lambda one: round(one[0], 6), default=(0.0, None))
    if pair is None or worst <= CLOSES:
        return
    low, high = asked.text(pair.least), asked.text(pair.most)
    width = low if low == high else f"{low} to {high}"
    change = (asked.joint - pair.least) if abs(pair.least - asked.joint) >= worst else (asked.joint - pair.most)
    remedy = _closes_with(asked, cell)
    if not remedy:
        remedy = f"make one of the two {asked.text(abs(change))} {'smaller' if change > 0 else 'larger'} there"
        if how == WITH_JOINTS:
            remedy += ", or draw the pieces without joints"
    yield asked.finding(
        "pattern-closure",
        f"between {_named(pieces, pair.piece, pair.other)} the joint measures {width}",
        f"{asked.text(asked.joint)} everywhere",
        remedy,
    )


def _closes_with(asked: Asked, cell: UnitCell) -> str:
    """Returns the sizes and the repeat that would make a pattern close, empty where neither does by itself."""
    found = closing(cell, REACH * max(asked.joint, LEAST_REACH))
    ways = [
        "; ".join(
            f"{kind or 'piece'} must be {asked.text(size[0])} x {asked.text(size[1])}" for kind, size in sizes.items()
        )
        for sizes in found.sizes
    ]
    if found.repeat is not None:
        across, along = (f"[{asked.text(x)}, {asked.text(y)}]" for x, y in found.repeat)
        ways.append(f"the repeat must be {across} across and {along} along")
    return ", or ".join(ways)


def _corners(asked: Asked, cell: UnitCell, pieces: Drawn) -> Iterator[Finding]:
    """Yields the corners that nearly meet though every joint is at width."""
    missed = missed_corner(cell, max(asked.joint, LEAST_REACH))
    if missed is not None:
        yield asked.finding(
            "pattern-corners",
            f"corners of {_named(pieces, missed.piece, missed.other)} miss each other by {asked.text(missed.by)}",
            "corners that meet, or keep a joint clear of each other",
            f"move one of the two {asked.text(missed.by)} along their joint, or look at the repeat",
        )


def _goods(asked: Asked, cell: UnitCell) -> Iterator[Finding]:
    """Yields goods that are not of the size that is drawn."""
    drawn = {cell.kind(k): _extent(outline) for k, outline in reversed(list(enumerate(cell.pieces)))}
    for kind, size in asked.sizes.items():
        needed = drawn.get(kind, cell.size)
        if max(abs(one - other) for one, other in zip(sorted(size), sorted(needed), strict=True)) > CLOSES:
            yield asked.finding(
                "pattern-closure",
                f"goods of {asked.text(size[0])} x {asked.text(size[1])} for a piece drawn "
                f"{asked.text(needed[0])} x {asked.text(needed[1])} over all",
                "goods of the size that is drawn",
                f"piece must be {asked.text(needed[0])} x {asked.text(needed[1])}",
            )
