"""What is marked on the floor: the snap list, running dimensions from one zero, and courses that add up as printed."""
