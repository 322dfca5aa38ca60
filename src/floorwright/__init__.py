"""Set out a patterned floor, from tape readings to a job pack."""
