"""Hookups: tried, judged, drawn by hand, planned and built up on the page."""
