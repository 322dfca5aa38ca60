"""What to order: counts, boxes, spares. Grout, adhesive, trims, weights, work and price join here later."""
