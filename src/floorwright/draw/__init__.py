"""The drawing model: sheets of blocks, views of primitives. No file formats and no solving."""
