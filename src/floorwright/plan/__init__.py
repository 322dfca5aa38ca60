"""The room as the program believes it to be: corners, walls, openings, obstacles; and the floor inside them."""
