"""The pattern on the floor: placing it, cutting it at the walls, scoring it, and the search that is proved best."""
