"""Sealed figures: students try them, the instructor opens them, slips are found."""
