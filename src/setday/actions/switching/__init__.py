"""Hookups, switch legs of a house, hunts and real faults."""
