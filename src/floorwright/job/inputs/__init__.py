"""What each part needs, taken out of a job."""
