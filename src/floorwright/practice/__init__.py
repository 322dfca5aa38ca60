"""Exercises for those who learn to set out, their answers worked out by the parts that work out a real job."""
