"""Of rooms that run through: their names on a plan, and what each makes of the pattern, as tables."""

from floorwright.draw.sheet import Column, Prose, Table
from floorwright.draw.style import Size
from floorwright.draw.view import Text
from floorwright.layout.layout import Layout
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import listed, sentence
from floorwright.survey.survey import SurveyResult


def room_names(room: Room) -> tuple[Text, ...]:
    """Returns the name of each room of several in the middle of its widest part; nothing for a room by itself."""
    import shapely

    items: list[Text] = []
    for one in room.rooms:
        circle = shapely.maximum_inscribed_circle(shapely.Polygon(one.outline), tolerance=10.0)
        x, y = circle.coords[0]
        items.append(Text(at=(float(x), float(y)), text=one.name, size=Size.TEXT, halo=True))
    return tuple(items)


def rooms_table(layout: Layout, figures: Figures) -> tuple[Table | Prose, ...]:
    """Returns what each room makes of the pattern and which decides it; nothing for a room by itself."""
    if not layout.rooms:
        return ()
    table = Table(
        heading="Room by room",
        columns=(
            Column(heading="Room"),
            Column(heading="Narrowest", unit=figures.column, align="right"),
            Column(heading="Full", align="right"),
            Column(heading="Cut", align="right"),
            Column(heading="Area", align="right"),
        ),
        rows=tuple(
            (part.room, figures.cut(part.worst), str(part.full), str(part.cut), figures.area(part.area))
            for part in layout.rooms
        ),
    )
    deciding = [part.room for part in layout.rooms if part.decides]
    where = Prose(lines=(sentence(f"the narrowest piece of all is in {listed(deciding)}"),))
    return (table, where) if deciding else (table,)


def areas_table(survey: SurveyResult, figures: Figures) -> tuple[Table, ...]:
    """Returns the area of each room wall to wall; nothing for a room by itself."""
    if len(survey.rooms) < 2:
        return ()
    return (
        Table(
            heading="Rooms",
            columns=(Column(heading="Room"), Column(heading="Area wall to wall", align="right")),
            rows=tuple((room.name, figures.area(room.area)) for room in survey.rooms),
        ),
    )
