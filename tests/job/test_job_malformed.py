"""Malformed job files, kept as they are in `malformed/`: each gives one clear message, at its line and key."""

from pathlib import Path

import pytest

from floorwright.findings import Severity
from floorwright.job.load import load

FILES = Path(__file__).parent / "malformed"

# File, severity, code, line (0: none), key, remedy.
EXPECTED = [
    (
        "quotes-broken-by-inch-mark",
        "error",
        "job-quotes",
        17,
        "SW-SE",
        "write \"7ft 10 3/4in\", or put it between three single quotes: '''7' 10 3/4\"'''",
    ),
    (
        "quotes-broken-by-foot-mark",
        "error",
        "job-quotes",
        17,
        "SW-SE",
        "write \"7ft 10 3/4in\", or put it between three single quotes: '''7' 10 3/4\"'''",
    ),
    ("length-without-quotes", "error", "job-quotes", 17, "SW-SE", 'write "2.405 m"'),
    ("decimal-comma", "error", "job-syntax", 17, "SW-SE", "write 3.6, not 3,6"),
    ("text-for-a-length", "error", "job-length", 18, "survey.distances.SE-NE", 'write 3600, "3.6 m" or "7ft 3 1/2in"'),
    (
        "bare-metres-in-a-millimetre-file",
        "warning",
        "job-doubt",
        17,
        "survey.distances.SW-SE",
        'write "2.405 m"; if it is right, write "2.405 mm"',
    ),
    (
        "fraction-without-unit",
        "error",
        "job-length",
        42,
        "zones.joint",
        'write the unit after a fraction, such as "1 1/2 in"',
    ),
    ("negative-gap", "error", "job-length", 43, "zones.gap", "write 0 or more"),
    ("distance-of-nothing", "error", "job-length", 18, "survey.distances.SE-NE", "measure it again"),
    ("list-for-a-length", "error", "job-length", 37, "goods.length", 'write 3600, "3.6 m" or "7ft 3 1/2in"'),
    ("over-a-kilometre", "error", "job-length", 17, "survey.distances.SW-SE", "write a length under 1 km"),
    ("not-a-number", "error", "job-length", 42, "zones.joint", 'write 3600, "3.6 m" or "7ft 3 1/2in"'),
    (
        "fifteen-inches-after-feet",
        "error",
        "job-length",
        17,
        "survey.distances.SW-SE",
        "write less than 12 inches after the feet, or all of it in inches",
    ),
    ("misspelt-needed-key", "error", "job-unknown-key", 28, "openings.ofset", "write offset"),
    ("misspelt-optional-key", "warning", "job-unknown-key", 44, "zones.joint_mots", "write joint_most"),
    (
        "key-in-the-wrong-table",
        "warning",
        "job-unknown-key",
        47,
        "aims.paper",
        "move it to the top, before the first [table]",
    ),
    ("missing-needed-key", "error", "job-missing-key", 24, "openings.width", "add width = ..."),
    (
        "unknown-table",
        "warning",
        "job-unknown-key",
        45,
        "finish",
        "take it out; the keys here are aims, by, client, control, date, free, goods, laid, links, obstacles, "
        "openings, order, paper, revision, rooms, rounding, schema, setout, slab_joints, survey, title, units, words "
        "or zones",
    ),
    ("single-brackets", "error", "job-type", 24, "openings", "write [[openings]]"),
    ("double-brackets", "error", "job-type", 31, "control", "write [control]"),
    ("units-in-words", "error", "job-choice", 4, "units", 'write "mm"'),
    ("unknown-tape-class", "error", "job-choice", 11, "survey.tape.class", "write one of them"),
    ("unknown-pattern", "error", "job-choice", 42, "zones.pattern", 'write "brick bond"'),
    ("newer-schema", "error", "job-schema", 1, "schema", "write schema = 1"),
    ("date-in-words", "error", "job-date", 3, "date", "write date = 2026-03-02"),
    ("date-that-does-not-exist", "error", "job-syntax", 3, "date", "write date = 2026-03-02"),
    ("date-with-time", "error", "job-date", 3, "date", "write date = 2026-03-02"),
    ("rounding-to-a-quarter", "error", "job-choice", 5, "rounding", "write rounding = 0.5"),
    ("nail-at-no-corner", "error", "job-unknown-corner", 47, "setout.nail", "write NE, NW, SE or SW"),
    ("ties-in-words", "error", "job-type", 47, "setout.ties", "write true or false"),
    ("flag-in-words", "error", "job-type", 12, "survey.tape.hook", "write true or false"),
    ("capital-true", "error", "job-syntax", 12, "hook", "write true or false"),
    ("half-a-tile-to-spare", "error", "job-type", 49, "order.spares", "write a whole number"),
    (
        "no-outline",
        "error",
        "job-outline",
        6,
        "survey.outline",
        'write outline = ["SW", "SE", "NE", "NW"] with the corners in order',
    ),
    ("corner-twice", "error", "job-outline", 7, "survey.outline", "take one out, or give it a name of its own"),
    (
        "two-corners",
        "error",
        "job-outline",
        7,
        "survey.outline",
        'write outline = ["SW", "SE", "NE", "NW"] with the corners in order',
    ),
    ("corner-with-a-dash", "error", "job-name", 10, "survey.outline", "write NE"),
    (
        "distance-to-nowhere",
        "error",
        "job-unknown-corner",
        19,
        "survey.distances.SW-P",
        "add P to the outline, or book a second distance to it",
    ),
    (
        "distance-in-small-letters",
        "error",
        "job-unknown-corner",
        21,
        "survey.distances.sw-ne",
        "write SW-NE, or book a second distance to sw",
    ),
    (
        "distance-to-itself",
        "error",
        "job-distance",
        19,
        "survey.distances.SE-SE",
        "write the point at the other end of the tape",
    ),
    ("distance-without-a-dash", "error", "job-name", 21, "survey.distances.SWNE", "write it as SW-SE"),
    (
        "distance-twice",
        "error",
        "job-duplicate",
        19,
        "survey.distances.SE-NE",
        "put all readings of one distance in a list: SE-NE = [..., ...]",
    ),
    ("wall-across-the-room", "error", "job-wall", 15, "survey.walls.E", "look at the outline's order"),
    ("wall-with-two-names", "error", "job-wall", 15, "survey.walls.door_side", "take one out"),
    ("square-at-no-corner", "error", "job-unknown-corner", 25, "survey.square.corner", "write NE, NW, SE or SW"),
    ("straight-with-two-points", "error", "job-size", 25, "survey.straight.points", 'write points = ["A", "P", "B"]'),
    ("opening-in-no-wall", "error", "job-unknown-wall", 26, "openings.wall", "write NE-NW, NW-SW, S or SE-NE"),
    ("opening-from-the-far-corner", "error", "job-unknown-corner", 27, "openings.from", "write SE or SW"),
    ("two-openings-of-one-name", "error", "job-same-name", 32, "openings.name", "give it another"),
    ("column-without-size", "error", "job-missing-key", 31, "obstacles.width", "add width = ..."),
    ("goods-of-no-name-known", "error", "job-unknown-goods", 41, "zones.goods", "write White 200"),
    ("goods-without-length", "error", "job-missing-key", 35, "goods.length", "measure a piece, or a row of them"),
    ("group-shorter-than-its-joints", "error", "job-range", 37, "goods.group.reads", "measure the row again"),
    ("least-joint-over-most", "error", "job-range", 43, "zones.joint_most", "write the greater figure as joint_most"),
    ("least-gap-over-most", "error", "job-range", 44, "zones.gap_most", "write the greater figure as gap_most"),
    ("joint-wider-than-the-tile", "warning", "job-doubt", 42, "zones.joint", "look at the unit"),
    ("first-line-without-its-walls", "error", "job-missing-key", 32, "control.first_line.walls", "add walls = ..."),
    ("first-line-by-something-else", "error", "job-choice", 32, "control.first_line.by", 'write "parallel"'),
    ("centre-at-no-opening", "error", "job-unknown-opening", 33, "control.centre.opening", "write door"),
    ("hidden-wall-unknown", "error", "job-unknown-wall", 47, "aims.hidden", "write NE-NW, NW-SW, S or SE-NE"),
    ("free-wall-unknown", "error", "job-unknown-wall", 46, "free.wall", "write NE-NW, NW-SW, S or SE-NE"),
    (
        "free-wall-twice",
        "error",
        "job-same-name",
        50,
        "free.wall",
        "write how far it may move, out and in, in one place",
    ),
    ("free-to-move-nowhere", "error", "job-missing-key", 45, "free.out", "add out = 100, or in = 100, or both"),
    ("free-without-a-wall", "error", "job-missing-key", 45, "free.wall", "add wall = ..."),
    (
        "laid-without-what",
        "error",
        "job-missing-key",
        45,
        "laid.pieces",
        'add pieces = ["floor:0,0,0"], or a line and the side of it that is laid',
    ),
    (
        "laid-line-without-a-side",
        "error",
        "job-missing-key",
        45,
        "laid.side",
        'add side = "left" or side = "right", as one looks along the line',
    ),
    (
        "laid-side-without-a-line",
        "error",
        "job-missing-key",
        45,
        "laid.line",
        'add line = "first line", or line = [[0, 1500], [4000, 1500]]',
    ),
    ("laid-up-to-no-line", "error", "job-choice", 47, "laid.line", 'write "first line"'),
    (
        "laid-up-to-one-point",
        "error",
        "job-type",
        47,
        "laid.line",
        'write line = "first line" or [[0, 900], [3000, 900]]',
    ),
    ("laid-held-at-no-corner", "error", "job-unknown-corner", 48, "laid.hold", "write NE, NW, SE or SW"),
    ("laid-held-at-one-corner-twice", "error", "job-range", 48, "laid.hold", "write another for one of them"),
    ("laid-by-no-file", "error", "job-missing-key", 45, "laid.from", "add from = ..."),
    (
        "laid-by-a-file-that-is-not-there",
        "error",
        "job-file-beside",
        0,
        "laid.from",
        "look at its name; keep the file of every revision beside the next",
    ),
    ("least-piece-in-words", "error", "job-choice", 46, "aims.least_piece", 'write "half"'),
    (
        "room-with-the-first-rooms-name",
        "error",
        "job-same-name",
        30,
        "rooms.name",
        "give it another, or write name = ... in [survey]",
    ),
    (
        "room-with-a-corner-twice",
        "error",
        "job-outline",
        33,
        "rooms.outline",
        "take one out, or give it a name of its own",
    ),
    ("link-to-no-room", "error", "job-unknown-room", 34, "links.rooms", "write store"),
    ("link-of-a-room-with-itself", "error", "job-link", 34, "links.rooms", "name the other room"),
    (
        "link-through-another-rooms-door",
        "error",
        "job-link",
        35,
        "links.openings",
        "name the openings in the order of the rooms, each in a wall of its own",
    ),
    (
        "link-with-one-opening",
        "error",
        "job-size",
        35,
        "links.openings",
        'write openings = ["hall side", "lounge side"]',
    ),
    (
        "table-twice",
        "error",
        "job-duplicate",
        48,
        "survey",
        "put all of it under one [survey], or write [[survey]] for each of several",
    ),
    ("table-not-closed", "error", "job-syntax", 31, "", "write [name], or [[name]] for one of several"),
    ("list-not-closed", "error", "job-syntax", 7, "outline", "put commas between and ] at the end"),
    ("text-not-closed", "error", "job-syntax", 2, "title", "close it with the quote that it starts with"),
    ("curly-quotes", "error", "job-syntax", 2, "title", 'write "..." with the plain key'),
    ("colon-for-equals", "error", "job-syntax", 2, "", "write key = value"),
    ("line-without-equals", "error", "job-syntax", 3, "", "give it a value after =, or put # before it"),
    ("control-character", "error", "job-encoding", 2, "", "delete it"),
    ("not-utf-8", "error", "job-encoding", 2, "", "save the file as UTF-8"),
    (
        "arc-without-rise",
        "error",
        "job-missing-key",
        24,
        "survey.arcs",
        "write rise = ..., how far it is off a string between its corners at the most",
    ),
    ("arc-on-unknown-wall", "error", "job-unknown-wall", 25, "survey.arcs.wall", "write NE-NW, NW-SW, S or SE-NE"),
    ("arc-of-no-rise", "error", "job-length", 26, "survey.arcs.rise", "measure it again"),
    ("arc-through-its-corner", "error", "job-distance", 26, "survey.arcs.points", "take it out"),
    (
        "arc-twice",
        "error",
        "job-wall",
        29,
        "survey.arcs.wall",
        "book all its readings in one; put a corner where two arcs meet",
    ),
    ("utf-16", "error", "job-encoding", 1, "", "save the file as UTF-8"),
    ("empty", "error", "job-empty", 0, "", "start from `floorwright new`"),
    ("only-remarks", "error", "job-empty", 0, "", "start from `floorwright new`"),
    ("nested-without-end", "error", "job-size", 6, "survey", "look at the brackets"),
    ("figures-without-end", "error", "job-syntax", 17, "", "look for a key held down"),
    ("aim-unknown", "error", "job-choice", 49, "aims.order.aim", "write one of them"),
    ("aim-at-no-wall", "error", "job-unknown-wall", 50, "aims.order.walls", "write NE-NW, NW-SW, S or SE-NE"),
    ("aim-on-no-line", "error", "job-unknown-line", 50, "aims.order.on", "write door"),
    ("aim-without-its-wall", "error", "job-missing-key", 48, "aims.order.walls", "add walls = ..."),
    ("aim-balanced-on-one-wall", "error", "job-size", 50, "aims.order.walls", 'write walls = ["S", "N"]'),
    (
        "aim-with-a-key-of-another",
        "warning",
        "job-unused",
        50,
        "aims.order.under",
        "take it out, or look at what it stands beside",
    ),
    ("aim-with-a-negative-count", "error", "job-number", 50, "aims.order.at_most", "look at it again"),
]


@pytest.mark.parametrize(
    ("name", "severity", "code", "line", "key", "remedy"), EXPECTED, ids=[row[0] for row in EXPECTED]
)
def test_one_message_says_what_where_and_what_to_do(
    name: str, severity: str, code: str, line: int, key: str, remedy: str
) -> None:
    path = FILES / f"{name}.toml"
    before = path.read_bytes()
    loaded = load(path)
    told = [finding for finding in loaded.findings if finding.severity is not Severity.NOTE]
    assert len(told) == 1, told
    finding = told[0]
    assert (finding.severity, finding.code, finding.remedy) == (severity, code, remedy)
    assert finding.place == f"{path.name}{f':{line}' if line else ''} {key}".rstrip()
    assert finding.found
    assert finding.expected
    assert path.read_bytes() == before


def test_every_file_is_expected() -> None:
    assert {path.stem for path in FILES.iterdir()} == {row[0] for row in EXPECTED}
    assert len(EXPECTED) >= 30
