"""A job as the text of a job file: whole, edited in place, or a starter to write over."""
