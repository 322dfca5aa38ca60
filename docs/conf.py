"""Sphinx: the manual in Markdown, themed by furo. Build with `sphinx-build docs docs/_build`."""

from floorwright import __version__

project = "floorwright"
author = "The floorwright authors"
release = __version__
extensions = ["myst_parser"]
html_theme = "furo"
html_title = "floorwright"
exclude_patterns = ["_build", "conftest.py"]
myst_heading_anchors = 3
