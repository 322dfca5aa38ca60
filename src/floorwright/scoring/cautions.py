"""What the sheets caution of wherever they tell somebody to cut a slab. Common cautions; local rules govern."""

from typing import Final

IN_SLAB: Final = (
    "Before any cut find out what is in it: post-tension cables (a cut one can kill), reinforcement near the top, "
    "pipes, cables, heating. Drawings and a scan, never a guess; stop and ask where nobody knows."
)

DUST: Final = (
    "Sawing concrete makes silica dust that ruins lungs: saw wet, or with a shroud and an extractor made for it, wear "
    "the mask that your rules ask for, and keep others away. Eyes, ears, boots; no loose clothes; wet floors slip, and "
    "a saw in the wet needs a residual-current breaker. Local rules govern."
)

SAW: Final = (
    "A blade that binds kicks back: guards on, both hands, never stand in its line, never force it or steer it in the "
    "cut; straight cuts along a guide, shallow passes on a curve. Only those who are trained on the saw use it."
)

BRIEFLY: Final = (
    "Cut only once it is known what is in the slab: post-tension cables (a cut one can kill), pipes, wires, heating. "
    "Wet or extracted, with the mask: the dust is silica. Guards on, both hands, out of the blade's line: it kicks "
    "back. Local rules govern."
)
"""The same on the list that hangs by the saw."""
