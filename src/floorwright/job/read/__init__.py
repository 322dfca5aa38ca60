"""From the bytes of a job file, and of files beside it, to the tables of `job.model`."""
