"""The cut list: every cut piece with the marks to saw it by. The plan that saves tiles comes with its solver later."""
