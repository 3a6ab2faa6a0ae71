"""Timetables: solved, repaired, their odds, what is ahead, told by dates and names."""
