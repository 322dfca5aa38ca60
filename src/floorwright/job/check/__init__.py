"""What cannot be so in a job though every value in it can be read."""
