"""Results to drawings: one module per sheet of the pack."""
