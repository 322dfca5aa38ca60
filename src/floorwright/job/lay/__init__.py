"""A job's floor laid: its zones, borders of free width, what is laid already, changes that would save cuts."""
