"""Formats of the Spanish pages."""
