"""Gates: what must be inside every surface before it is closed, checked off, confirmed, and on record."""
