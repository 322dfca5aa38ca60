"""Pure two-dimensional geometry: points, lines, rings and regions. No floors, no tiles, no files.

Frame of the whole program: mm, x right, y up, angles in radians anticlockwise from x. Outer rings run
anticlockwise and holes clockwise, so that the inside is always on the left of an edge.
"""
