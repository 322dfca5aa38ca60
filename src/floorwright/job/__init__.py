"""The job file, and `solve`, which runs every part over it in order."""
