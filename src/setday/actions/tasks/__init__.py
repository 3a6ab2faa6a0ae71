"""The tasks of a house: what trades hand on and what the instructor typed."""
