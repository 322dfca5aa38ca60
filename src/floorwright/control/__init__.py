"""Control lines: the first line, the centre, the square and the 45s, how to raise them and how far out they may be."""
