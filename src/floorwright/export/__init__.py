"""One module per format: pdf, dxf, svg, csv."""
