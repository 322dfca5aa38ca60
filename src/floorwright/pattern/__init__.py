"""Patterns: the unit cell that repeats, with its pieces at work size and its joints; and their catalogue."""
