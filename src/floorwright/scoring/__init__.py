"""Scored and saw-cut concrete: the pattern's lines are the product, not its pieces."""
