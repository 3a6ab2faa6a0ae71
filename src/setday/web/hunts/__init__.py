"""Hunts for planted faults: the instructor's sheets, the crews' sheet, and the search for a real fault."""
