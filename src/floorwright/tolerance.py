"""Every tolerance of the program, by name. Lengths in mm, areas in mm2, angles in radians.

A tolerance says what it is for; nothing else in the program compares with a bare small number. The input is never
snapped to any of these.
"""

from typing import Final

COINCIDENT: Final = 1e-6
"""Two points nearer than this are one point (rounding of doubles over a 100 m floor is about 1e-11)."""

TOUCH: Final = 1e-3
"""Pieces are shrunk by this in the predicates that decide full, cut or outside, so that a wall that runs along a
tile's edge does not cut it. It moves a measured depth by at most 0.0014 (half the diagonal of a square of twice it)."""

SLIVER_AREA: Final = 1.0
"""An area under this is what rounding left over, not a piece."""

STRIP: Final = 0.05
"""A strip between the gap at a wall and the nearest piece that is narrower than this is not there."""

RANK_STEP: Final = 0.01
"""Scores are rounded to this before they are ranked, so that last-bit differences between machines change nothing."""

PROOF: Final = 0.1
"""A search stops when its bound is within this of the best found, and says so beside the word `proved`."""

SPAN_PROOF: Final = 1.0
"""A search over a range of angles stops when its bound is within this of the best found: what a tape is read to."""

PARALLEL: Final = 1e-9
"""Two unit vectors whose cross product is under this are parallel."""

ALONG: Final = 0.0873
"""5 degrees. A wall within this of a direction of the pattern runs along it: its cut has a thin and a fat end."""

TIE: Final = 1e-6
"""A length within this of midway between two graduations is midway: doubles hold no sixteenth of a sum exactly."""

LOOK_PAST: Final = 1e-7
"""A line of sight this far to either side of a corner passes it (0.01 mm at 100 m)."""

CHORD: Final = 0.5
"""A polygon that stands for a circle strays from it by no more than this."""

ARC: Final = 0.1
"""Straight edges that stand for a wall's arc fall short of it by no more than this: a fifth of what a tape is read to,
and as near as a search is proved (`PROOF`)."""

RANK: Final = 1e-7
"""A network whose weakest direction is this much weaker than its strongest is not fixed in that direction."""

UNCHECKED: Final = 0.01
"""A reading of which less than this part of an error would show in its own residual is checked by nothing."""

LEAST_SAWN: Final = 10.0
"""A piece narrower than this cannot be cut and laid with any certainty. Our default: common practice, no source."""

LEAST_SHARE: Final = 0.1
"""Of a tile's smaller side: of small tiles, pieces narrower than `LEAST_SAWN` are sawn or nipped down to this. Our
default: common practice, no source."""

LEAST_TRIM: Final = 2.0
"""A strip narrower than this cannot be sawn off a tile with any certainty: it is about as wide as the saw's cut. Our
default: common practice, no source."""

AT_CORNER: Final = 5.0
"""An opening that runs no farther past the corner of its wall than this stands in the corner: readings of a wall and of
the opening in it agree no better. Our default: common practice, no source."""

JOIN: Final = 1.0
"""Ends of lines in a drawing nearer than this are one corner: drawings are traced to less than a tape is read to."""

LITTLE_CHECKED: Final = 0.3
"""A reading of which less than this part of an error would show in its own residual is checked a little: a slip must be
over three times as large as its residual. Our default: common practice, no source."""

TURN_STEP: Final = 1e-6
"""Radians. Two angles of a pattern nearer than this are one: they part by a tenth of a millimetre over 100 m."""

LINES_UP: Final = 2.0
"""A joint, or the middle of a tile, that is no farther than this from a line lies on it to the eye. Our default: common
practice, no source."""

CLOSES: Final = 0.25
"""A joint that comes out within this of its width is at width: no spacer is finer. Our default: common practice, no
source."""

ONE_CUT: Final = 6.0
"""Two saw cuts nearer than this leave a sliver of concrete between them that breaks out: they are cut as one, and a
line that lies so near a joint in the slab is that joint. Our default: common practice, no source."""
