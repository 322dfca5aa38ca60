"""The commented job files that `floorwright new` writes: small crooked rooms that solve as they are, to write over."""

from typing import Final

_METRIC: Final = """\
# A job for floorwright. Write your own readings over these; every key has a remark.
# Lengths: a bare number is in `units`; with a unit it goes between quotes: "3.6 m", "360 cm", "7ft 3 1/2in".

schema = 1                  # the form of this file
title = "Back kitchen"
client = ""
by = ""
date = 2026-03-02           # printed on the sheets: year-month-day
revision = "A"
units = "mm"                # mm cm m in ft
words = "UK"                # UK or US
paper = "A4"                # A4 or Letter
rounding = 0.5              # printed lengths go to 1 or 0.5 mm

[survey]
outline = ["A", "B", "C", "D"]      # the corners in order round the room
direction = "anticlockwise"         # which way round that is, seen from above
# inward = ["D"]                    # corners that turn into the room, if any

[survey.tape]
class = "EU II"             # printed on the tape: EU I, EU II, EU III, US metal; or limit = 2 for your own
reading = 0.5               # how well you read it
hook = false                # true: readings start at the end hook
# reads = "10 m"            # what it reads over a length that is known, and
# true = "10.004 m"         # what that length is: every distance is corrected by it
# celsius = 5               # of a steel tape while it was read
# pull = "60 N"             # how hard it was pulled, and
# section = "2.5 mm2"       # width by thickness of its steel: every distance is corrected for its stretch
# weight = "16 g/m"         # and with the pull, for its sag over distances where it hung free:
# hung = ["A-C"]

[survey.walls]              # names to call the walls by
"door wall" = "A-B"
right = "B-C"
window = "C-D"
left = "D-A"

[survey.distances]          # one reading a line; a list for a distance taken twice
A-B = 3418
B-C = 2964
C-D = 3402
D-A = 2971
A-C = [4511, 4512]          # both diagonals: without one the room is not fixed, with both it is checked
B-D = 4529

# A corner taken as square, or a point on a straight line, when a reading cannot be had:
# [[survey.square]]
# corner = "B"
# within = 2                # mm out, over a length of
# over = 1000

# An angle read with a laser or protractor, or a point measured square from a wall, helps as well:
# [[survey.angles]]
# corner = "B"
# angle = 90.3              # degrees, inside the room
# within_degrees = 0.5      # how true it was read
# [[survey.offsets]]
# point = "C"
# wall = "door wall"
# from = "A"
# along = 3390              # along the wall, and square out from it
# out = 2960
# within = 10               # how true both are; squared by eye it is not much

# A wall that is an arc, by how far it stands off a string between its corners at the most:
# [[survey.arcs]]
# wall = "window"
# bows = "out"              # out of the room, or in
# rise = 412                # or radius = 2430, or points = ["P"] on it with readings of their own

[[openings]]
name = "door"
wall = "door wall"
from = "A"                  # offset is measured from this corner
offset = 540
width = 826
reveal = 20                 # how far the floor runs in, to under the closed door

# [[obstacles]]
# name = "soil pipe"
# kind = "pipe"             # or "round column", or "column" with length and width
# wall = "left"
# from = "D"
# along = 150               # to the centre of a pipe, to the near side of a column
# out = 150
# diameter = 110

[control]
first_line = { by = "parallel", wall = "door wall" }    # or mid-points, opening, points
centre = { by = "mid-point", wall = "door wall" }       # or opening, visual, point
compass = 1500              # reach of the compass
tape = 5000                 # length of the tape
mark = 0.5                  # how true you make a mark
set = 1                     # how true you set a length
# straightedge = 2000         # its length, where lines are carried on with one

[[goods]]
name = "Stone grey 300"
length = 298                # measured, not off the box
width = 298
thickness = 9
box = 11
# group = { tiles = 10, joints = 9, joint = 3, reads = 3007 }    # or the length from a row of tiles

[[zones]]
name = "floor"
goods = "Stone grey 300"
pattern = "grid"            # or "brick bond", "herringbone": `floorwright patterns` lists them
joint = 3
joint_most = 4              # joints up to this may be offered
angle = 0                   # degrees from the first line; 45 for diagonal
# angles = [0, 45]          # several to try instead; or a range of them:
# angle_from = -2           # degrees from the first line
# angle_to = 2
gap = 6                     # at the walls

[aims]
least_piece = "half"        # half, third, fifth or a length
hidden = ["window"]         # walls where a small cut or a taper is seen by nobody
option = ""                 # your own choice among the options, by its name
# Your own aims, the weightiest first; without any ours are taken:
# [[aims.order]]
# aim = "no piece under"      # or widest worst piece, fewest small pieces, fewest cuts, fewest tiles, balanced cuts,
# under = "third"             # full tile, joint on line, tile on line, least taper, no thin trim, firm
# visible = true              # hidden walls do not count; or walls = ["left"]: only those count
# [[aims.order]]
# aim = "fewest cuts"
# within_count = 2            # two more are as good

# A wall or an edge that may as well be elsewhere: where would it save cuts?
# [[free]]
# wall = "window"
# out = 50                  # how far it may move out, and in
# in = 0

# Some of it is laid and a reading has changed: what is laid stays, the rest is cut anew.
# [laid]
# from = "earlier.toml"     # the job file that it was laid by, kept beside this one
# line = "first line"       # all is laid on one side of this line; or pieces = ["floor:0,0,0"] by their ids
# side = "right"            # as one looks along it

# A concrete slab that is scored or sawn instead: the joints that are in it, and the lines to cut.
# [slab]
# thickness = 100           # at an edge
# scanned = true            # drawings and a scan have shown what is in it
# [[slab_joints]]
# name = "long joint"
# from = [0, 1480]          # its two ends: x and y from the first corner along the first wall, or a corner
# to = [3410, 1480]
# kind = "contraction"      # or isolation, construction
# depth = 25                # as measured
# [scoring]
# pattern = "grid"          # `floorwright patterns` lists them
# length = 600              # of a cell, from line to line
# outline = [[0, 0], [1500, 0], [1500, 2000], [0, 2000]]   # where the rest is tiled: what is scored
# border_ends = 300         # from the slab's edge to the middle of the border's line, at the ends of the first line
# border_sides = 300        # and along it
# depth = 6                 # of the cut
# blade = 115               # diameter
# colours = ["sand", "slate"]   # stains, neighbours never alike
# [[scoring.circles]]
# diameter = 1800           # cut by a pivot; lines stop at it

[setout]
# nail = "A"                # the corner that all running figures are measured from
# ties = true               # tie the nodes of the pattern to two corners each; a diagonal floor is tied anyway
# gauge_rod = true          # print gauge rods at true size, to be taped to a lath
# [setout.grid]              # boxes within reach, each set before the mortar skins
# reach = 1300
# skins = 1.5               # m2 that you set before it skins

[order]
spares = 3
"""

_IMPERIAL: Final = """\
# A job for floorwright. Write your own readings over these; every key has a remark.
# Lengths: a bare number is in `units`; with a unit it goes between quotes: "7ft 3 1/2in", "40 1/2 in", "3.6 m".
# Foot and inch marks would end the quotes: write ft and in.

schema = 1                  # the form of this file
title = "Back kitchen"
client = ""
by = ""
date = 2026-03-02           # printed on the sheets: year-month-day
revision = "A"
units = "in"                # mm cm m in ft
words = "US"                # UK or US
paper = "Letter"            # A4 or Letter
rounding = "1/16in"         # printed lengths go to 1/16in or 1/32in

[survey]
outline = ["A", "B", "C", "D"]      # the corners in order round the room
direction = "anticlockwise"         # which way round that is, seen from above
# inward = ["D"]                    # corners that turn into the room, if any

[survey.tape]
class = "US metal"          # or, printed on the tape: EU I, EU II, EU III; or limit = "1/16in" for your own
reading = "1/32in"          # how well you read it
hook = false                # true: readings start at the end hook

[survey.walls]              # names to call the walls by
"door wall" = "A-B"
right = "B-C"
window = "C-D"
left = "D-A"

[survey.distances]          # one reading a line; a list for a distance taken twice
A-B = "11ft 2 1/2in"
B-C = "9ft 8 3/4in"
C-D = "11ft 1 7/8in"
D-A = "9ft 9in"
A-C = ["14ft 9 1/2in", "14ft 9 9/16in"]   # both diagonals: without one the room is not fixed, with both it is checked
B-D = "14ft 10 3/8in"

# A corner taken as square, or a point on a straight line, when a reading cannot be had:
# [[survey.square]]
# corner = "B"
# within = "1/16in"         # out, over a length of
# over = "3ft"

# An angle read with a laser or protractor, or a point measured square from a wall, helps as well:
# [[survey.angles]]
# corner = "B"
# angle = 90.3              # degrees, inside the room
# within_degrees = 0.5      # how true it was read
# [[survey.offsets]]
# point = "C"
# wall = "door wall"
# from = "A"
# along = "11ft 1 1/2in"    # along the wall, and square out from it
# out = "9ft 8 1/2in"
# within = "3/8in"          # how true both are; squared by eye it is not much

# A wall that is an arc, by how far it stands off a string between its corners at the most:
# [[survey.arcs]]
# wall = "window"
# bows = "out"              # out of the room, or in
# rise = "1ft 4 1/4in"      # or radius = "8ft", or points = ["P"] on it with readings of their own

[[openings]]
name = "door"
wall = "door wall"
from = "A"                  # offset is measured from this corner
offset = "1ft 9in"
width = "2ft 8in"
reveal = "7/8in"            # how far the floor runs in, to under the closed door

# [[obstacles]]
# name = "drain pipe"
# kind = "pipe"             # or "round column", or "column" with length and width
# wall = "left"
# from = "D"
# along = "6in"             # to the center of a pipe, to the near side of a column
# out = "6in"
# diameter = "4 1/2in"

[control]
first_line = { by = "parallel", wall = "door wall" }    # or mid-points, opening, points
centre = { by = "mid-point", wall = "door wall" }       # or opening, visual, point
compass = "5ft"             # reach of the compass
tape = "16ft"               # length of the tape
mark = "1/64in"             # how true you make a mark
set = "1/32in"              # how true you set a length
# straightedge = "6ft"        # its length, where lines are carried on with one

[[goods]]
name = "Stone gray 12 inch"
length = "11 3/4in"         # measured, not off the box
width = "11 3/4in"
thickness = "3/8in"
box = 11
# group = { tiles = 10, joints = 9, joint = "1/8in", reads = "9ft 10 5/8in" }    # or the length from a row of tiles

[[zones]]
name = "floor"
goods = "Stone gray 12 inch"
pattern = "grid"            # or "brick bond", "herringbone": `floorwright patterns` lists them
joint = "1/8in"
joint_most = "3/16in"       # joints up to this may be offered
angle = 0                   # degrees from the first line; 45 for diagonal
# angles = [0, 45]          # several to try instead; or a range of them:
# angle_from = -2           # degrees from the first line
# angle_to = 2
gap = "1/4in"               # at the walls

[aims]
least_piece = "half"        # half, third, fifth or a length
hidden = ["window"]         # walls where a small cut or a taper is seen by nobody
option = ""                 # your own choice among the options, by its name
# Your own aims, the weightiest first; without any ours are taken:
# [[aims.order]]
# aim = "no piece under"      # or widest worst piece, fewest small pieces, fewest cuts, fewest tiles, balanced cuts,
# under = "third"             # full tile, joint on line, tile on line, least taper, no thin trim, firm
# visible = true              # hidden walls do not count; or walls = ["left"]: only those count
# [[aims.order]]
# aim = "fewest cuts"
# within_count = 2            # two more are as good

# A wall or an edge that may as well be elsewhere: where would it save cuts?
# [[free]]
# wall = "window"
# out = "2in"               # how far it may move out, and in
# in = 0

# Some of it is laid and a reading has changed: what is laid stays, the rest is cut anew.
# [laid]
# from = "earlier.toml"     # the job file that it was laid by, kept beside this one
# line = "first line"       # all is laid on one side of this line; or pieces = ["floor:0,0,0"] by their ids
# side = "right"            # as one looks along it

# A concrete slab that is scored or sawn instead: the joints that are in it, and the lines to cut.
# [slab]
# thickness = "4in"         # at an edge
# scanned = true            # drawings and a scan have shown what is in it
# [[slab_joints]]
# name = "long joint"
# from = [0, "4ft 10in"]    # its two ends: x and y from the first corner along the first wall, or a corner
# to = ["11ft 2in", "4ft 10in"]
# kind = "contraction"      # or isolation, construction
# depth = "1in"             # as measured
# [scoring]
# pattern = "grid"          # `floorwright patterns` lists them
# length = "24in"           # of a cell, from line to line
# outline = [[0, 0], ["5ft", 0], ["5ft", "6ft"], [0, "6ft"]]   # where the rest is tiled: what is scored
# border_ends = "12in"      # from the slab's edge to the middle of the border's line, at the ends of the first line
# border_sides = "12in"     # and along it
# depth = "1/4in"           # of the cut
# blade = "4 1/2in"         # diameter
# colours = ["sand", "slate"]   # stains, neighbours never alike
# [[scoring.circles]]
# diameter = "6ft"          # cut by a pivot; lines stop at it

[setout]
# nail = "A"                # the corner that all running figures are measured from
# ties = true               # tie the nodes of the pattern to two corners each; a diagonal floor is tied anyway
# gauge_rod = true          # print gauge rods at true size, to be taped to a lath
# [setout.grid]              # boxes within reach, each set before the mortar skins
# reach = "4ft"
# skins = 16                # sq ft that you set before it skins

[order]
spares = 3
"""


def starter(*, metric: bool) -> str:
    """Returns a commented job file, in mm or in feet and inches, that loads without a finding and solves."""
    return _METRIC if metric else _IMPERIAL
